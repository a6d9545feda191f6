package jobs

import (
	"fmt"
	"slices"
	"strings"
)

// Waits tells whether the job waits by the workshop's own choice: on hold, not
// approved, or its stones or patterns not here. reason says what is missing,
// ask whom to ask about it; several are parted by semicolons. Findings are
// joined after the casting, so nothing waits for them.
func (j *Job) Waits() (reason, ask string, waits bool) {
	var reasons, asks []string
	add := func(whom, format string, args ...any) {
		reasons = append(reasons, fmt.Sprintf(format, args...))
		if whom == "" {
			whom = j.Ask
		}
		if whom != "" && !slices.Contains(asks, whom) {
			asks = append(asks, whom)
		}
	}
	if j.State == Hold {
		add(j.Ask, "on hold: %s", j.Reason)
	}
	if j.Approved == nil {
		add(orElse(j.Ask, j.For), "not approved")
	}
	for _, p := range j.Parts {
		if !p.Pattern.Here {
			add("", "pattern%s not here", of(p.Name, len(j.Parts)))
		}
	}
	for _, s := range j.Stones {
		if s.Here {
			continue
		}
		whom, how := s.Ordered, ", ordered"
		switch {
		case s.Ordered != "":
		case s.Owner != House:
			whom, how = s.Owner, ", to be brought"
		default:
			how = ", not ordered"
		}
		add(whom, "%s (%s) not here%s", s.Kind, s.Place, how)
	}
	return strings.Join(reasons, "; "), strings.Join(asks, "; "), len(reasons) > 0
}

// Active tells whether there is still something to be cast: neither done nor
// cancelled.
func (j *Job) Active() bool { return j.State == Open || j.State == Hold }

func orElse(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func of(name string, parts int) string {
	if parts < 2 {
		return ""
	}
	return " of " + name
}
