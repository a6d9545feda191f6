package jobs

import (
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"sort"
	"strings"

	"castweek/jobs/source"
	"castweek/jobs/workshop"
	"castweek/metal/measure"
	"castweek/metal/problem"
)

// readWishes reads wishes.yaml, which may be missing. It tells whether the
// wishes can be followed; when not, nothing may be planned, since a person's
// decision would be undone.
func (f *Folder) readWishes(fsys fs.FS, all []*fileJob, problems *problem.List) bool {
	if _, err := fs.Lstat(fsys, WishesFile); errors.Is(err, fs.ErrNotExist) {
		return true
	}
	data, ok := readFile(fsys, WishesFile, problems)
	if !ok {
		return false
	}
	var found problem.List
	if m, ok := source.Parse(WishesFile, data, &found); ok {
		r := newWishReader(f, all)
		f.Wishes = r.read(m)
		m.Done()
		if len(found.Errors()) == 0 {
			f.Wishes.contradictions(r, &found)
		}
	}
	*problems = append(*problems, found...)
	return len(found.Errors()) == 0
}

// A wishReader knows what a wish may name.
type wishReader struct {
	shop     *workshop.Workshop
	castings map[string][]Casting // of each job
	one      map[string]Casting   // by id
	held     map[string]bool      // jobs whose file has an error
	names    []string
}

func newWishReader(f *Folder, all []*fileJob) *wishReader {
	r := &wishReader{f.Workshop, map[string][]Casting{}, map[string]Casting{}, map[string]bool{}, nil}
	for _, j := range f.Jobs {
		r.castings[j.Number] = j.Castings()
		for _, c := range r.castings[j.Number] {
			r.one[c.ID] = c
		}
		r.names = append(r.names, j.Number)
	}
	for _, h := range f.Held {
		r.held[h.Job] = true
		r.names = append(r.names, h.Job)
	}
	sort.Strings(r.names)
	return r
}

func (r *wishReader) read(m *source.Map) Wishes {
	w := Wishes{
		Together: r.groups(m, "together"),
		Apart:    r.groups(m, "apart"),
		First:    r.jobs(m, "first"),
		Mixed:    r.jobs(m, "mixed"),
	}
	for _, s := range m.Maps("broken_flasks") {
		b := BrokenFlask{At: s.At(), Flask: source.Need(s, "flask", source.Line), Count: source.Need(s, "count", source.Positive(measure.Whole))}
		r.flask(s, b.Flask, b.Count)
		s.Done()
		w.Broken = append(w.Broken, b)
	}
	for _, s := range m.Maps("keep") {
		k := KeptTree{At: s.At(), Tree: source.Need(s, "tree", parseTree), Flask: source.Maybe(s, "flask", "", source.Line)}
		if !s.Has("castings") {
			s.Missing("castings")
		}
		for _, v := range s.Values("castings") {
			k.Castings = append(k.Castings, r.expand(v)...)
		}
		if k.Flask != "" {
			r.flask(s, k.Flask, 0)
		}
		s.Done()
		w.Keep = append(w.Keep, k)
	}
	return w
}

var treeForm = regexp.MustCompile(`^[A-Z]{1,2}$`)

func parseTree(text string) (string, error) {
	if !treeForm.MatchString(text) {
		return "", &measure.SyntaxError{Code: "tree-form", Message: fmt.Sprintf("%q is not the letter of a tree", text), Remedy: "write its letter, such as C"}
	}
	return text, nil
}

// maxGroups bounds the lists of a wish: each may stand for thousands of
// castings.
const maxGroups = 500

// groups reads lists of jobs and castings, two or more in each.
func (r *wishReader) groups(m *source.Map, key string) []Group {
	var out []Group
	lists := m.Lists(key)
	if len(lists) > maxGroups {
		m.Bad(key, "wish-many", "join lists that overlap", "%d lists; at most %d are read", len(lists), maxGroups)
		return nil
	}
	for _, list := range lists {
		if len(list) == 0 {
			continue // reported already
		}
		g := Group{At: list[0].At}
		seen := map[string]bool{}
		for _, v := range list {
			member := Member{Named: v.Text}
			for _, id := range r.expand(v) {
				if seen[id] {
					v.Bad("wish-double", "name it once", "%s is named twice", id)
					break
				}
				seen[id] = true
				member.Castings = append(member.Castings, id)
			}
			g.Members = append(g.Members, member)
		}
		if len(list) == 1 {
			list[0].Bad("wish-single", "name at least two", "%s alone cannot be %s", list[0].Text, key)
		}
		out = append(out, g)
	}
	return out
}

// expand turns the number of a job into its castings.
func (r *wishReader) expand(v source.Value) []string {
	if c, ok := r.one[v.Text]; ok {
		return []string{c.ID}
	}
	if list, ok := r.castings[v.Text]; ok {
		var out []string
		for _, c := range list {
			out = append(out, c.ID)
		}
		return out
	}
	job, _, isCasting := strings.Cut(v.Text, "/")
	if r.held[job] {
		return nil // its own file says what is wrong with it
	}
	remedy := r.meant(job)
	if _, ok := r.castings[job]; ok && isCasting {
		remedy = "write one of: " + strings.Join(r.ids(job, 6), ", ")
	}
	v.Bad("wish-unknown", remedy, "there is no job or casting %q", v.Text)
	return nil
}

// meant proposes the job whose number looks most like one that is not there. It
// may be quite another job: numbers of a week lie near each other.
func (r *wishReader) meant(job string) string {
	if near, ok := source.Nearest(job, r.names); ok && near != job {
		return "remove it, or write " + near + " if that was meant"
	}
	return "remove it, or correct the number"
}

func (r *wishReader) ids(job string, most int) []string {
	var out []string
	for _, c := range r.castings[job] {
		if len(out) == most {
			return append(out, "…")
		}
		out = append(out, c.ID)
	}
	return out
}

func (r *wishReader) jobs(m *source.Map, key string) []Wish {
	var out []Wish
	for _, v := range m.Values(key) {
		if _, ok := r.castings[v.Text]; !ok && !r.held[v.Text] {
			v.Bad("wish-unknown", r.meant(v.Text), "there is no job %q", v.Text)
			continue
		}
		out = append(out, Wish{v.At, v.Text})
	}
	return out
}

func (r *wishReader) flask(s *source.Map, name string, count int) {
	if r.shop == nil || name == "" {
		return
	}
	var names []string
	for _, f := range r.shop.Flasks {
		if f.Name == name {
			if count > f.Count {
				s.Bad("count", "flask-count", "write at most "+fmt.Sprint(f.Count), "%d flasks %s are broken; the house has %d", count, name, f.Count)
			}
			return
		}
		names = append(names, f.Name)
	}
	s.Bad("flask", "unknown-flask", "write one of: "+strings.Join(names, ", "), "the house has no flask %q", name)
}
