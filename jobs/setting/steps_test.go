package setting

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"castweek/jobs/stone"
	"castweek/metal/measure"
	"pgregory.net/rapid"
)

func line(kind string, cut stone.Cut, l, w, d measure.MM, n int) Line {
	return Line{Place: "centre", Kind: stone.Find(kind), Cut: cut, Length: l, Width: w, Depth: d, Count: n}
}

func input(style Style, metal Metal, s Line) Input {
	return Input{Style: style, Metal: metal, Stone: s, House: DefaultHouse(), Ring: true}
}

// every calls f with all styles × sizes × metals × cuts, with and without what
// may be unknown, and with several houses.
func every(f func(name string, in Input)) {
	poor := DefaultHouse()
	poor.Burs, poor.Drills = []measure.MM{2}, []measure.MM{1}
	noDrills := DefaultHouse()
	noDrills.Drills = nil
	kinds := []stone.Kind{{Name: "made up", Known: true, SG: 3, Care: stone.Care{Torch: stone.WithCare, Ultrasonic: stone.KeepAway, Steam: stone.Tolerated, Acid: stone.Tolerated}}}
	for _, name := range []string{"diamond", "sapphire", "opal", "garnet", "peridot", "moissanite", "moonrock"} {
		kinds = append(kinds, stone.Find(name))
	}
	for _, style := range Styles() {
		for _, metal := range append(Metals(), OtherMetal) {
			for tenths := 8; tenths <= 120; tenths += 8 {
				for i, cut := range stone.Cuts() {
					w := measure.MM(tenths) / 10
					l := w
					if !cut.Equal() && cut != stone.Square && cut != stone.Princess {
						l = w * 1.4
					}
					k := (tenths/8 + i) % len(kinds)
					in := input(style, metal, line("", cut, l, w, 0, 1+(tenths/8)%7))
					in.Stone.Kind = kinds[k]
					in.Ring = tenths%16 == 0
					in.Placed = tenths%3 == 0
					switch (tenths/8 + i) % 5 {
					case 0:
						in.Stone.Depth = w * 0.6
						in.Claws = Wires{Count: 3 + k%4, Finished: w / 5, Modelled: w / 4, Overlap: w / 20, Height: w / measure.MM(1+k*5)}
						in.Girdle = w
						in.Seat, in.Thickness, in.Shrinkage = Seat{l, w}, w, 1.5
					case 1:
						in.Claws = Wires{Count: 4, Finished: w / 6, Shared: true}
						in.Wall = 1
						in.Girdle = w / 3
					case 2:
						in.House = poor
						in.Claws.Shared = k%2 == 0
						in.Stone.Depth, in.Girdle = w*0.6, w*0.5
						in.Others = []Line{line("opal", stone.Cabochon, 5, 4, 0, 1), line("diamond", stone.Round, 1, 1, 0, 8)}
					case 3:
						in.InWax = true
					case 4:
						in.House = noDrills
					}
					f(fmt.Sprintf("%s in %s: %s %s %.1f", style, metal, kinds[k].Name, cut, w), in)
				}
			}
		}
	}
}

// No step may have a number that is empty, negative, larger than the stone it
// speaks of, or a tool that is not in the house; and each says where it is from.
func TestEveryStepOfEveryStyle(t *testing.T) {
	checked, used, stopCodes := 0, map[string]bool{}, map[string]bool{}
	usedSources := map[string]bool{}
	every(func(name string, in Input) {
		steps, stops := Steps(in)
		if len(steps) < 10 || len(stops) < 5 {
			t.Fatalf("%s: %d steps, %d stops", name, len(steps), len(stops))
		}
		seen := map[string]bool{}
		for _, s := range steps {
			checked++
			used[s.Key], usedSources[s.Source] = true, true
			if seen[s.Key] {
				t.Errorf("%s: %s twice", name, s.Key)
			}
			seen[s.Key] = true
			sentence(t, name+" "+s.Key, s.Text, s.Source)
			if s.Caution != "" {
				sentence(t, name+" "+s.Key+" caution", s.Caution, "-")
			}
			for _, n := range s.Numbers {
				whole(t, name+" "+s.Key, n, in.Stone.Length)
				if !strings.Contains(s.Text, n.String()) {
					t.Errorf("%s %s: %s (%s) is not in %q", name, s.Key, n.Key, n, s.Text)
				}
				switch n.Key {
				case "bur":
					if !slices.Contains(in.House.Burs, n.High) || n.High > in.Stone.Width {
						t.Errorf("%s %s: %s is no bur of the house, or larger than %s", name, s.Key, n, in.Stone.Width)
					}
				case "drill":
					if !slices.Contains(in.House.Drills, n.High) || n.High > in.Stone.Width*0.7+dust {
						t.Errorf("%s %s: %s is no drill of the house, or over 70 %% of %s", name, s.Key, n, in.Stone.Width)
					}
				}
			}
		}
		for _, s := range stops {
			stopCodes[s.Code], usedSources[s.Source] = true, true
			sentence(t, name+" "+s.Code, s.Text, s.Source)
			for _, n := range s.Numbers {
				whole(t, name+" "+s.Code, n, in.Stone.Length)
			}
		}
	})
	if checked < 50000 {
		t.Errorf("only %d steps were looked at", checked)
	}
	for key := range catalogue {
		if !used[key] {
			t.Errorf("the sentence %s is never used", key)
		}
	}
	for key := range stopWords {
		code, _, _ := strings.Cut(key, ".")
		if !stopCodes[code] && code != "input" {
			t.Errorf("the stop %s is never used", code)
		}
	}
	for key, text := range sources {
		if text == "" {
			t.Errorf("the source %s is empty", key)
		}
	}
}

// reporter is a plain test or a property test.
type reporter interface {
	Helper()
	Errorf(format string, args ...any)
}

func sentence(t reporter, where, text, source string) {
	t.Helper()
	if text == "" || strings.ContainsAny(text, "{}|") || source == "" || len([]rune(text)) > 120 {
		t.Errorf("%s: %q (%s)", where, text, source)
	}
}

func whole(t reporter, where string, n Number, stone measure.MM) {
	t.Helper()
	lengthOK := n.Low > 0 && n.High >= n.Low && (n.Piece || n.High <= stone+dust) && n.Count == 0
	countOK := n.Count > 0 && n.Thing != "" && n.High == 0
	if !(lengthOK || countOK) || n.Name == "" || n.Key == "" {
		t.Errorf("%s: number %+v for a stone of %s", where, n, stone)
	}
}

// The styles are not one list with other headings.
func TestStylesDiffer(t *testing.T) {
	own := map[Style]map[string]bool{}
	for _, style := range Styles() {
		own[style] = map[string]bool{}
		cut := stone.Round
		if style == Points {
			cut = stone.Princess
		}
		steps, _ := Steps(input(style, YellowGold, line("diamond", cut, 3, 3, 1.8, 2)))
		for _, s := range steps {
			if !strings.HasPrefix(s.Key, "front.") && !strings.HasPrefix(s.Key, "end.") && !strings.HasPrefix(s.Key, "metal.") {
				own[style][s.Key] = true
			}
		}
	}
	for _, a := range Styles() {
		for _, b := range Styles() {
			missing := 0
			for key := range own[a] {
				if !own[b][key] {
					missing++
				}
			}
			if a != b && missing < 4 {
				t.Errorf("%s has only %d steps that %s has not", a, missing, b)
			}
		}
	}
}

func text(steps []Step, key string) string {
	for _, s := range steps {
		if s.Key == key {
			return s.Text
		}
	}
	return ""
}

// Published numbers in their steps.
func TestPublishedNumbersInSteps(t *testing.T) {
	for _, c := range []struct {
		name string
		in   Input
		key  string
		says string
	}{
		{"channel for 2.5 mm rounds: 2.25 mm, trade magazine", input(Channel, YellowGold, line("diamond", stone.Round, 2.5, 2.5, 1.5, 7)), "channel.width", "2.25 mm"},
		{"platinum, 5.2 mm stone: setting bur 5.2, trade magazine", input(Bead, Platinum, line("diamond", stone.Round, 5.2, 5.2, 3.1, 1)), "bead.seat.bur", "5.2 mm"},
		{"platinum, 5.2 mm stone: pilot half of it, trade magazine", input(Bead, Platinum, line("diamond", stone.Round, 5.2, 5.2, 3.1, 1)), "pilot.drill", "2.6 mm"},
		{"gap about 0.10 mm, benchmark", input(Pave, YellowGold, line("diamond", stone.Round, 1.5, 1.5, 0.9, 30)), "pave.lay", "gaps of 0.1 mm, centres 1.6 mm"},
		{"flush, 3 mm, 60 % deep: metal 2.0 mm, bench forum", input(Flush, YellowGold, line("diamond", stone.Round, 3, 3, 1.8, 1)), "flush.metal", "2 mm"},
		{"flush, 3 mm: table level, trade magazine", input(Flush, YellowGold, line("diamond", stone.Round, 3, 3, 1.8, 1)), "flush.drop", "level"},
		{"flush, 4 mm: table proud, trade magazine", input(Flush, YellowGold, line("diamond", stone.Round, 4, 4, 2.4, 1)), "flush.drop.proud", "above"},
		{"a bur of the house, not the stone's 6.43", input(Claw, YellowGold, line("diamond", stone.Round, 6.43, 6.43, 3.9, 1)), "claw.seat.open", "6 mm bur, cut it out to 6.43 mm"},
		{"claw height 70 to 80 % of a crown of 0.94", input(Claw, YellowGold, line("diamond", stone.Round, 6.5, 6.5, 3.9, 1)), "claw.trim", "0.66 to 0.75 mm"},
		{"in platinum 60 to 80 %", input(Claw, Platinum, line("diamond", stone.Round, 6.5, 6.5, 3.9, 1)), "claw.trim", "0.57 to 0.75 mm"},
		{"a seat of 6.50 mm shrinks by 1.5 %", seated(input(Claw, YellowGold, line("diamond", stone.Round, 6.5, 6.5, 3.9, 1))), "front.seat.round", "6.4 mm (6.5 mm modelled), stone 6.5 mm"},
		{"claws as modelled beside both rules", seated(input(Claw, YellowGold, line("diamond", stone.Round, 6.5, 6.5, 3.9, 1))), "claw.height", "stand 2 mm above the girdle: about 2.8 mm by one rule, 1.16 to 1.75 mm by the other"},
		{"metal of 2.05 mm as modelled", seated(input(Flush, YellowGold, line("diamond", stone.Round, 3, 3, 1.8, 1))), "flush.metal.known", "2 mm or thicker; the model gives 2.01 mm"},
		{"V-claws 90 to 100 %", input(Points, YellowGold, line("diamond", stone.Princess, 5, 5, 3.9, 1)), "points.trim", "0.85 to 0.94 mm"},
	} {
		steps, _ := Steps(c.in)
		if got := text(steps, c.key); !strings.Contains(got, c.says) {
			t.Errorf("%s: %q, want %q", c.name, got, c.says)
		}
	}
}

// seated has a pattern with a seat, claws and metal of known size.
func seated(in Input) Input {
	in.Seat, in.Thickness, in.Shrinkage = Seat{6.5, 6.5}, 2.05, 1.5
	in.Claws = Wires{Count: 4, Finished: 1.2, Modelled: 1.3, Overlap: 0.3, Height: 2}
	return in
}

// Any stone, any house: what is written is whole, and nothing panics.
func TestStepsOfAnyStone(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		mm := func(name string, low, high float64) measure.MM {
			return measure.MM(rapid.Float64Range(low, high).Draw(r, name))
		}
		in := input(rapid.SampledFrom(Styles()).Draw(r, "style"), rapid.SampledFrom(Metals()).Draw(r, "metal"),
			line(rapid.SampledFrom(stone.Names()).Draw(r, "kind"), rapid.SampledFrom(stone.Cuts()).Draw(r, "cut"), mm("length", 0.5, 30), mm("width", 0.5, 30), 0, rapid.IntRange(1, 200).Draw(r, "count")))
		if rapid.Bool().Draw(r, "measured") {
			in.Stone.Depth = min(in.Stone.Length, in.Stone.Width) * mm("depth", 0.11, 1.5)
		}
		in.Claws = Wires{rapid.IntRange(-1, 8).Draw(r, "claws"), mm("wire", -1, 4), mm("modelled", -1, 4), mm("overlap", -1, 2), mm("height", -1, 5), rapid.Bool().Draw(r, "shared")}
		in.Wall, in.Girdle = mm("wall", -1, 5), mm("girdle", -1, 9)
		in.Seat, in.Thickness, in.Shrinkage = Seat{mm("seat", -1, 30), mm("seat width", -1, 30)}, mm("metal", -1, 20), measure.Percent(mm("shrinkage", 0, 5))
		in.InWax = rapid.Bool().Draw(r, "wax")
		in.House.Burs = in.House.Burs[:rapid.IntRange(0, len(in.House.Burs)).Draw(r, "burs")]
		in.House.Drills = in.House.Drills[:rapid.IntRange(0, len(in.House.Drills)).Draw(r, "drills")]
		steps, stops := Steps(in)
		if len(steps) < 10 {
			r.Fatalf("%d steps, %+v", len(steps), stops)
		}
		deepest := max(in.Stone.Length, in.Stone.Width, in.Stone.Depth)
		for _, s := range steps {
			sentence(r, s.Key, s.Text, s.Source)
			for _, n := range s.Numbers {
				whole(r, s.Key, n, deepest+cent/2) // told to the hundredth
			}
		}
	})
}

func TestOrder(t *testing.T) {
	filled := line("ruby", stone.Oval, 6, 4, 0, 1)
	filled.Treatment = "glass-filled"
	lines := []Line{line("opal", stone.Cabochon, 6, 4, 0, 1), filled, line("ruby", stone.Oval, 6, 4, 0, 1), line("diamond", stone.Round, 1, 1, 0, 9), line("sapphire", stone.Round, 2, 2, 0, 1)}
	if got := Order(lines); !slices.Equal(got, []int{3, 2, 4, 0, 1}) {
		t.Errorf("order %v", got)
	}
	// A delicate line that may already be in governs the cleaning.
	in := input(Claw, YellowGold, lines[0])
	in.Others = []Line{line("pearl", stone.Bead, 6, 6, 0, 1)}
	in.Stone.Kind = stone.Find("moonrock")
	in.Stone.Kind.Care = stone.Care{}
	steps, _ := Steps(in)
	if text(steps, "end.clean.damp") == "" {
		t.Errorf("a pearl is cleaned in a bath: %s", steps[len(steps)-2].Text)
	}
}

func codes(stops []Stop, now bool) string {
	var out []string
	for _, s := range stops {
		if s.Now == now {
			out = append(out, s.Code)
		}
	}
	return strings.Join(out, " ")
}

func TestStops(t *testing.T) {
	good := input(Claw, YellowGold, line("diamond", stone.Round, 3, 3, 1.8, 2))
	_, stops := Steps(good)
	if got := codes(stops, false); got != "size-fits size-cut size-return chip count" {
		t.Errorf("stops %s", got)
	}
	if got := codes(stops, true); got != "" {
		t.Errorf("a good job stops with %s", got)
	}
	if got := stops[0].Text; got != "Measured 2.95 to 3.05 mm: it fits. Set it." {
		t.Errorf("%q", got)
	}
	if got := stops[2].Text; !strings.Contains(got, "2.85 to 3.15 mm") {
		t.Errorf("%q", got)
	}
	for _, c := range []struct {
		change func(*Input)
		want   string
	}{
		{func(in *Input) { in.Stone.Kind = stone.Find("moonrock") }, "unknown-kind"},
		{func(in *Input) { in.Style = Points }, "style-cut"},
		{func(in *Input) { in.Style, in.Stone.Kind = Flush, stone.Find("opal") }, "fragile"},
		{func(in *Input) { in.Style, in.Stone.Cut = Channel, stone.Cabochon }, "style-dome"},
		{func(in *Input) { in.InWax, in.Stone.Kind = true, stone.Find("opal") }, "wax-kind"},
		{func(in *Input) { in.InWax, in.Stone.Kind = true, stone.Find("moissanite") }, "wax-ask"},
		{func(in *Input) { in.Girdle = 1 }, "culet-out"},
		{func(in *Input) { in.Girdle = 1.8 }, "culet-low"},
		{func(in *Input) { in.Girdle, in.Ring = 1.8, false }, ""},
		{func(in *Input) { in.Girdle = 2 }, ""},
		{func(in *Input) { in.Claws.Height = 0.25 }, "claw-short"},
	} {
		in := good
		c.change(&in)
		_, stops := Steps(in)
		if got := codes(stops, true); got != c.want {
			t.Errorf("stops now %q, want %q", got, c.want)
		}
	}
}

func TestInputThatIsNone(t *testing.T) {
	good := input(Claw, YellowGold, line("diamond", stone.Round, 3, 3, 1.8, 2))
	nan := measure.MM(0)
	nan /= nan
	for _, c := range []struct {
		change func(*Input)
		says   string
	}{
		{func(in *Input) { in.Style = "glue" }, "style"}, {func(in *Input) { in.Stone.Cut = "lump" }, "cut"},
		{func(in *Input) { in.Stone.Width = 0 }, "size"}, {func(in *Input) { in.Stone.Length = nan }, "size"}, {func(in *Input) { in.Stone.Length = 1e9 }, "size"},
		{func(in *Input) { in.Stone.Depth = -1 }, "depth"}, {func(in *Input) { in.Stone.Depth = nan }, "depth"},
		{func(in *Input) { in.Stone.Count = 0 }, "how many"}, {func(in *Input) { in.House = House{} }, "house limits"},
	} {
		in := good
		c.change(&in)
		steps, stops := Steps(in)
		if len(steps) != 0 || len(stops) != 1 || !stops[0].Now || stops[0].Code != "input" || !strings.Contains(stops[0].Text, c.says) {
			t.Errorf("%s: %d steps, %+v", c.says, len(steps), stops)
		}
	}
	turned := good
	turned.Stone = line("sapphire", stone.Oval, 4, 6, 2.6, 1)
	steps, _ := Steps(turned)
	if got := text(steps, "front.measure.long"); !strings.Contains(got, "6 mm by 4 mm") {
		t.Errorf("a stone typed the other way round: %q", got)
	}
}

func TestCareInSteps(t *testing.T) {
	in := input(Bezel, YellowGold, line("opal", stone.Cabochon, 7, 5, 0, 1))
	in.Others = []Line{line("diamond", stone.Round, 1, 1, 0.6, 8)}
	steps, _ := Steps(in)
	all := ""
	for _, s := range steps {
		all += s.Key + ": " + s.Caution + " " + s.Text + "\n"
	}
	for _, want := range []string{
		"front.after:  Set these first: diamond (centre).", "opal: no torch, no ultrasonic, no steam, no acid.", "no hammer near it",
		"bezel.push", "damp cloth only", "The depth is assumed",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is missing in\n%s", want, all)
		}
	}
	if strings.Contains(all, "bezel.hammer") {
		t.Error("an opal is hammered")
	}
}

func TestNames(t *testing.T) {
	for typed, want := range map[string]Style{"pavé": Pave, " Claw ": Claw, "FLUSH": Flush} {
		if got, ok := StyleOf(typed); !ok || got != want {
			t.Errorf("%q: %q", typed, got)
		}
	}
	if got, ok := StyleOf("glue"); ok {
		t.Errorf("glue is %q", got)
	}
	for alloy, want := range map[string]Metal{"750 yellow": YellowGold, "585 red": RedGold, "750 white": WhiteGold, "925 silver": Silver,
		"950 platinum": Platinum, "950 palladium": Palladium, "999.9 gold": YellowGold, "copper": OtherMetal, "": OtherMetal} {
		if got := MetalOf(alloy); got != want {
			t.Errorf("%q: %q", alloy, got)
		}
	}
}
