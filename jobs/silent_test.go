package jobs

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"castweek/jobs/workshop"
)

// freeText are the keys that take any text.
var freeText = " for design ask by whose finish masked plated last_step owner notes name place treatment risk parcel ordered from kind "

// optional are the keys that may be left out, as the page says.
var optional = " ask approved resizable gauge finish masked plated last_step hallmark owner bag notes spares shank finished_width modelled_width section " +
	"findings from assembly stones origin treatment depth overlap height girdle seat parcel ordered "

var scalarAt = regexp.MustCompile(`([a-z_]+): ([^,}#\n\[{|]*[^ ,}#\n\[{|])`)

// TestNothingIsSilent spoils the example of the page one value at a time, and
// takes out one value at a time: unless the page says that any text will do, or
// that the key may be left out, an error must come of it.
func TestNothingIsSilent(t *testing.T) {
	example := blocks(t, "README.md")[0]
	data, err := os.ReadFile("workshop/testdata/complete.yaml")
	if err != nil {
		t.Fatal(err)
	}
	shop, _ := workshop.Read(WorkshopFile, data)
	wrong := func(text string) bool {
		_, problems := ReadJob("jobs/K-204.yaml", []byte(text), shop)
		if strings.Contains(codes(problems), "yaml-syntax") {
			t.Fatalf("the test broke the file: %v", problems)
		}
		return len(problems.Errors()) > 0
	}
	if wrong(example) {
		t.Fatal("the example is wrong")
	}
	spoiled, emptied, left := 0, 0, 0
	for _, at := range scalarAt.FindAllStringSubmatchIndex(example, -1) {
		line := example[strings.LastIndexByte(example[:at[0]], '\n')+1 : at[0]]
		if strings.Contains(line, "#") {
			continue // in a comment
		}
		if !strings.ContainsAny(line, "{[") { // a comma does not end it
			rest, _, _ := strings.Cut(example[at[4]:], "\n")
			rest, _, _ = strings.Cut(rest, " #")
			at[5] = at[4] + len(strings.TrimRight(rest, " "))
		}
		key := example[at[2]:at[3]]
		place := strings.TrimSpace(line) + key
		if !strings.Contains(freeText, " "+key+" ") {
			spoiled++
			if !wrong(example[:at[4]] + "'?'" + example[at[5]:]) {
				t.Errorf("%s: '?' is taken in silence", place)
			}
		}
		emptied++
		if !wrong(example[:at[4]] + "''" + example[at[5]:]) {
			t.Errorf("%s: an empty text is taken in silence", place)
		}
		if without, ok := cut(example, at[2], at[5]); ok {
			left++
			if wrong(without) == strings.Contains(optional, " "+key+" ") {
				t.Errorf("%s: left out, refused is %v", place, wrong(without))
			}
		}
	}
	if spoiled < 50 || emptied < 70 || left < 60 {
		t.Errorf("only %d, %d and %d values were tried", spoiled, emptied, left)
	}
}

// cut takes a key and its value out of a text: out of its braces, or with its
// line where the line is all theirs.
func cut(text string, from, to int) (string, bool) {
	start := strings.LastIndexByte(text[:from], '\n') + 1
	end := to + strings.IndexByte(text[to:], '\n') + 1
	switch {
	case strings.TrimSpace(text[start:from]) == "":
		return text[:start] + text[end:], true
	case strings.HasPrefix(text[to:], ", "):
		return text[:from] + text[to+2:], true
	case strings.HasSuffix(text[:from], ", "):
		return text[:from-2] + text[to:], true
	}
	return "", false
}

// A quantity without its unit, with a comma, negative or of another unit is
// refused wherever the example has one.
func TestQuantitiesOfThePage(t *testing.T) {
	example := blocks(t, "README.md")[0]
	number := regexp.MustCompile(`\d+(\.\d+)? (mm3|mm|g)\b`)
	tried := 0
	for _, at := range number.FindAllStringIndex(example, -1) {
		line := example[strings.LastIndexByte(example[:at[0]], '\n')+1 : at[0]]
		if strings.Contains(line, "#") {
			continue
		}
		was := example[at[0]:at[1]]
		value, unit, _ := strings.Cut(was, " ")
		for _, bad := range []string{value, "'" + strings.ReplaceAll(value+".5", ".", ",") + " " + unit + "'", "-" + was, value + " inch", value + "e2 " + unit, "about " + was} {
			tried++
			_, problems := ReadJob("jobs/K-204.yaml", []byte(example[:at[0]]+bad+example[at[1]:]), nil)
			if len(problems.Errors()) == 0 {
				t.Errorf("%s%s is taken for %s", line, bad, was)
			}
		}
	}
	if tried < 100 {
		t.Errorf("only %d were tried", tried)
	}
}
