package book

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"testing"
	"time"

	"castweek/metal/measure"
	"castweek/metal/problem"

	"pgregory.net/rapid"
)

var monday = time.Date(2026, 11, 23, 9, 0, 0, 0, time.FixedZone("", 3600))

// write books movements into a new file and fails on any refusal.
func write(t interface{ Fatalf(string, ...any) }, moves ...Movement) []byte {
	var data []byte
	for _, m := range moves {
		line, _, l := AppendLine("metal.csv", data, m)
		if len(l) > 0 {
			t.Fatalf("%v", l)
		}
		data = append(data, line...)
	}
	return data
}

func move(k Kind, lot string, g measure.Milligram) Movement {
	m := Movement{At: monday, Who: "AB", Kind: k, Lot: lot, Alloy: "750 yellow", Fineness: 751000, From: OwnMelt, Grams: g, Form: Grain}
	if k == CastingsOut {
		m.Lot, m.Fineness, m.From, m.Form = "", 0, "", ""
	}
	return m
}

func (m Movement) tree(name string) Movement        { m.Tree = name; return m }
func (m Movement) job(name string) Movement         { m.Job = name; return m }
func (m Movement) as(f Form) Movement               { m.Form = f; return m }
func (m Movement) of(owner string) Movement         { m.Owner = owner; return m }
func (m Movement) melted(n int) Movement            { m.Melts, m.HasMelts = n, true; return m }
func (m Movement) makes(lot string) Movement        { m.Into = lot; return m }
func (m Movement) reverse(id int) Movement          { m.Kind, m.Reverses = Reversal, id; return m }
func (m Movement) alloy(a string, p Parts) Movement { m.Alloy, m.Fineness = a, p; return m }

// week is a cast of two trees, the second from what the first gave back.
func week() []Movement {
	return []Movement{
		move(Bought, "L1", 100_000),
		move(Opening, "L2", 40_000).as(Button).melted(2),
		move(ToTree, "L1", 60_000).tree("2026-W48-A"),
		move(ToTree, "L2", 40_000).tree("2026-W48-A").as(Button),
		move(CastingsOut, "", 55_000).tree("2026-W48-A").job("K-204"),
		move(ButtonBack, "L3", 44_500).tree("2026-W48-A").as(Button),
		move(ToTree, "L3", 20_000).tree("2026-W48-B").as(Button),
		move(ToTree, "L1", 20_000).tree("2026-W48-B"),
		move(ButtonBack, "L4", 15_000).tree("2026-W48-B").as(Button),
		move(Filings, "L5", 900).job("K-204").as(Powder),
	}
}

func TestOnHandIsTheSum(t *testing.T) {
	b, l := Read("metal.csv", write(t, week()...))
	if len(l) > 0 {
		t.Fatal(l)
	}
	want := []struct {
		lot   string
		g     measure.Milligram
		melts int
	}{{"L1", 20_000, 0}, {"L2", 0, 2}, {"L3", 24_500, 3}, {"L4", 15_000, 4}, {"L5", 900, 1}}
	for i, h := range b.OnHand() {
		if w := want[i]; h.Lot != w.lot || h.Grams != w.g || h.Melts != w.melts {
			t.Errorf("%+v, want %+v", h, w)
		}
	}
	sums := b.Sums()
	if len(sums) != 3 || sums[0].Form != Button || sums[0].Grams != 39_500 || sums[0].Fine != Of(39_500, 751000) {
		t.Errorf("sums %+v", sums)
	}
	a := b.Trees()[0]
	if a.Charged != 100_000 || a.Open() != 500 || a.Melts != 2 || a.Fineness() != 751000 {
		t.Errorf("tree %+v", a)
	}
}

func TestTraceBothWays(t *testing.T) {
	b, _ := Read("metal.csv", write(t, week()...))
	ids := func(steps []Step) string {
		var s []string
		for _, x := range steps {
			s = append(s, fmt.Sprint(x.Movement))
		}
		return strings.Join(s, " ")
	}
	for _, c := range []struct{ name, back, forth string }{
		{"2026-W48-A", "3 4 1 2", "5 6 10 7 9"},
		{"L4", "9 7 8 6 1 3 4 2", ""},
		{"L2", "2", "4 5 6 10 7 9"},
		{"K-204", "5 3 4 1 2", "10"},
	} {
		got := b.Trace(c.name)
		if len(got) != 1 || ids(got[0].Back) != c.back || ids(got[0].Forth) != c.forth {
			t.Errorf("%s: %+v", c.name, got)
			for _, g := range got {
				t.Errorf("back %s, forth %s", ids(g.Back), ids(g.Forth))
			}
		}
	}
	if b.Trace("nothing") != nil {
		t.Error("something came of nothing")
	}
	// A tree has nothing of what came into the lot after it was charged.
	b, _ = Read("metal.csv", write(t, move(Bought, "L1", 50_000), move(ToTree, "L1", 10_000).tree("A"), move(Bought, "L1", 50_000), move(ToTree, "L1", 10_000).tree("B")))
	if got := ids(b.Trace("A")[0].Back); got != "2 1" {
		t.Errorf("back %s", got)
	}
}

func TestMeltMakesANewLot(t *testing.T) {
	moves := []Movement{
		move(Opening, "L1", 20_000).as(Scrap).melted(1).alloy("585 yellow", 585000),
		move(Bought, "L2", 20_000).alloy("999.9 gold", 999900),
		move(ToMelt, "L1", 12_000).as(Scrap).alloy("585 yellow", 585000).makes("L3"),
		move(ToMelt, "L2", 18_000).alloy("999.9 gold", 999900).makes("L3"),
		move(FromMelt, "L3", 29_900).as(Bar),
	}
	b, l := Read("metal.csv", write(t, moves...))
	if h, _ := b.Lot("L3"); len(l) > 0 || h.Melts != 2 || h.Grams != 29_900 {
		t.Errorf("%+v %v", h, l)
	}
	if tr := b.Trace("L1"); len(tr) != 1 || len(tr[0].Forth) != 1 || tr[0].Forth[0].To.Name != "L3" {
		t.Errorf("trace %+v", tr)
	}
}

// A melt is of one customer's metal, with the house's where that was agreed, and
// what it gives is theirs.
func TestMeltsKeepOwnersApart(t *testing.T) {
	data := write(t, move(Bought, "G", 50_000), move(CustomerIn, "K", 20_000).of("Ms K").as(Bar), move(CustomerIn, "L", 20_000).of("Mr L").as(Bar),
		move(ToMelt, "K", 9_000).of("Ms K").as(Bar).makes("M"), move(ToMelt, "G", 1_000).makes("M"), move(ToMelt, "G", 1_000).makes("N"))
	for what, m := range map[string]Movement{
		"another customer's metal": move(ToMelt, "L", 1_000).of("Mr L").as(Bar).makes("M"),
		"given to the house":       move(FromMelt, "M", 9_900).as(Bar),
		"given to another":         move(FromMelt, "M", 9_900).of("Mr L").as(Bar),
		"the house's given away":   move(FromMelt, "N", 900).of("Ms K").as(Bar),
	} {
		if _, _, l := AppendLine("metal.csv", data, m); len(l.Errors()) != 1 || l.Errors()[0].Code != "book-two-owners" {
			t.Errorf("%s: %v", what, l)
		}
	}
	for _, m := range []Movement{move(FromMelt, "M", 9_900).of("Ms K").as(Bar), move(FromMelt, "N", 900).as(Bar)} {
		if _, _, l := AppendLine("metal.csv", data, m); len(l) > 0 {
			t.Error(l)
		}
	}
}

// A stamp is not a fineness, and casting or melting does not make it one.
func TestStampsStayStamps(t *testing.T) {
	stamp := move(Opening, "S", 20_000).as(Scrap).melted(1)
	stamp.From = StampOnly
	out := func(k Kind) Movement {
		m := move(k, "S", 5_000).as(Scrap)
		m.From = StampOnly
		return m
	}
	data := write(t, stamp, move(Bought, "G", 50_000), move(ToTree, "G", 20_000).tree("A"), out(ToTree).tree("A"), out(ToMelt).makes("M"), move(ToTree, "G", 20_000).tree("B"))
	from := func(m Movement, o Origin) Movement { m.From = o; return m }
	button, melted := move(ButtonBack, "B1", 10_000).as(Button).tree("A"), move(FromMelt, "M", 4_900).as(Bar)
	for _, x := range []struct {
		m    Movement
		code string
	}{
		{button, "book-stamp"}, {from(button, StampOnly), ""}, {from(button, Assay), ""},
		{melted, "book-stamp"}, {from(melted, StampOnly), ""}, {from(melted, Assay), ""},
		{move(ButtonBack, "B2", 10_000).as(Button).tree("B"), ""},
	} {
		_, _, l := AppendLine("metal.csv", data, x.m)
		if got := len(l.Errors()) > 0 && l.Errors()[0].Code == x.code; got != (x.code != "") || x.code == "" && len(l) > 0 {
			t.Errorf("%s by %s: %v", x.m.Kind, x.m.From, l)
		}
	}
}

func TestReversal(t *testing.T) {
	data := write(t, move(Bought, "L1", 50_000), move(ToTree, "L1", 30_000).tree("A"), move(ToTree, "L1", 30_000).tree("A").reverse(2), move(ToTree, "L1", 20_000).tree("A"))
	b, l := Read("metal.csv", data)
	if h, _ := b.Lot("L1"); len(l) > 0 || h.Grams != 30_000 || b.Trees()[0].Charged != 20_000 {
		t.Errorf("%+v %v", h, l)
	}
	for what, m := range map[string]Movement{
		"twice":                move(ToTree, "L1", 30_000).tree("A").reverse(2),
		"a reversal":           move(ToTree, "L1", 30_000).tree("A").reverse(3),
		"other grams":          move(ToTree, "L1", 19_000).tree("A").reverse(4),
		"what others stand on": move(Bought, "L1", 50_000).reverse(1),
		"the future":           move(Bought, "L1", 50_000).reverse(9),
	} {
		if _, _, l := AppendLine("metal.csv", data, m); len(l.Errors()) == 0 {
			t.Errorf("%s is taken back", what)
		}
	}
}

// Each mistake has its code at its line, and the column of its field.
func TestMistakes(t *testing.T) {
	good := string(write(t, week()...))
	for _, c := range []struct {
		name, old, new, code string
		line                 int
		text                 string // what stands at the column
	}{
		{"negative weight", ",60.000,", ",-60.000,", "book-weight", 4, "-60.000"},
		{"no weight", ",60.000,", ",0.000,", "book-weight", 4, "0.000"},
		{"a mountain", ",60.000,", ",60000000.000,", "book-weight", 4, "60000000"},
		{"decimal comma", ",60.000,", ",\"60,000\",", "book-weight", 4, "60,000"},
		{"too many decimals", ",60.000,", ",60.0001,", "book-weight", 4, "60.0001"},
		{"a lot that ran out", ",60.000,", ",100.001,", "book-lot-out", 4, ""},
		{"too fine", "L1,750 yellow,751,own melt,60.000", "L1,750 yellow,1000.1,own melt,60.000", "book-fineness", 4, "1000.1"},
		{"other fineness", "L1,750 yellow,751,own melt,60.000", "L1,750 yellow,752,own melt,60.000", "book-lot-differs", 4, ""},
		{"unknown kind", "to tree,L1,750 yellow,751,own melt,60", "to treee,L1,750 yellow,751,own melt,60", "book-word", 4, "to treee"},
		{"unknown origin", "L1,750 yellow,751,own melt,60", "L1,750 yellow,751,hearsay,60", "book-word", 4, "hearsay"},
		{"double id", "4,2026", "3,2026", "book-id", 5, ""},
		{"line taken out", "4,2026", "5,2026", "book-id", 5, ""},
		{"no moment", "2026-11-23T09:00:00+01:00,AB,bought", "yesterday,AB,bought", "book-time", 2, "yesterday"},
		{"nobody", "AB,bought", ",bought", "book-who", 2, ","},
		{"unknown lot", "to tree,L3", "to tree,L9", "book-lot-unknown", 8, ""},
		{"two alloys on a tree", "750 yellow,,,55.000", "585 yellow,,,55.000", "book-two-alloys", 6, ""},
		{"more off than on", ",44.500,", ",45.100,", "book-tree-out", 7, ""},
		{"no tree", "2026-W48-A,,K-204", ",,K-204", "book-missing", 6, ","},
		{"a field too many", "AB,bought,", "AB,bought,,", "book-fields", 2, ""},
		{"broken quotes", "AB,bought", "A\"B,bought", "book-line", 2, "B"},
		{"not UTF-8", "AB,bought", "\xffB,bought", "book-text", 2, ""},
		{"other header", "id,at,who", "id;at;who", "book-header", 1, ""},
		{"other separator, quoted", "id,at,who", "\"id\";\"at\";\"who\"", "book-header", 1, ""},
		{"blanks only", "2,2026", "  \n2,2026", "book-fields", 3, ""},
		{"a cell after the last column", "2,2026", ",,,,,,,,,,,,,,,,,x\n2,2026", "book-fields", 3, ""},
		{"an empty cell put in", ",L1,", ",,L1,", "book-fields", 2, ""},
	} {
		bad := strings.Replace(good, c.old, c.new, 1)
		if bad == good {
			t.Fatalf("%s: nothing to change", c.name)
		}
		_, l := Read("metal.csv", []byte(bad))
		if len(l.Errors()) == 0 {
			t.Errorf("%s: no error", c.name)
			continue
		}
		p := l.Errors()[0]
		if p.Code != c.code || p.Place.Line != c.line || p.Remedy == "" {
			t.Errorf("%s: %v", c.name, p)
		}
		if c.text != "" && !strings.HasPrefix(strings.TrimPrefix(string([]rune(p.Place.Text)[max(p.Place.Column-1, 0):]), "\""), c.text) {
			t.Errorf("%s: column %d of %q", c.name, p.Place.Column, p.Place.Text)
		}
		if _, _, l := AppendLine("metal.csv", []byte(bad), move(Bought, "L9", 1)); len(l.Errors()) == 0 {
			t.Errorf("%s: a wrong book is added to", c.name)
		}
	}
}

func TestRefusedMovements(t *testing.T) {
	data := write(t, append(week(), move(CustomerIn, "C1", 9_000).of("Ms K").as(Scrap).melted(0), move(CustomerIn, "C2", 9_000).of("Mr L").as(Bar),
		move(ToTree, "C1", 1_000).of("Ms K").as(Scrap).tree("2026-W48-C"))...)
	for code, m := range map[string]Movement{
		"book-two-owners":  move(ToTree, "C2", 1_000).of("Mr L").as(Bar).tree("2026-W48-C"),
		"book-missing":     move(CustomerIn, "C3", 1_000),
		"book-surplus":     move(Bought, "L8", 1_000).of("Ms K"),
		"book-lot-differs": move(GivenBack, "C1", 1_000).of("Mr L").as(Scrap),
		"book-form":        move(Filings, "L8", 1_000).as(Bar),
		"book-melt":        move(FromMelt, "L8", 1_000),
		"book-tree":        move(ButtonBack, "L8", 1_000).as(Button).tree("2026-W48-X"),
		"book-text":        {At: monday, Who: "A\nB", Kind: Bought},
	} {
		if _, _, l := AppendLine("metal.csv", data, m); len(l.Errors()) == 0 || l.Errors()[0].Code != code {
			t.Errorf("%s: %v", code, l)
		}
	}
	// Topping a customer's tree up from the house is a thing to agree, not a mistake.
	if _, _, l := AppendLine("metal.csv", data, move(ToTree, "L1", 1_000).tree("2026-W48-C")); len(l) > 0 {
		t.Error(l)
	}
}

// However much of the file reached the disk, whole lines are read and the rest
// is set aside.
func TestTornAnywhere(t *testing.T) {
	data := write(t, week()...)
	for n := range data {
		b, l := Read("metal.csv", data[:n])
		if len(l.Errors()) > 0 {
			t.Fatalf("cut at %d: %v", n, l)
		}
		lines := bytes.Count(data[:n], []byte("\n"))
		if got := len(b.Movements); got != max(lines-1, 0) || (len(b.Torn) > 0) != (n > 0 && data[n-1] != '\n') || len(l) != min(len(b.Torn), 1) {
			t.Fatalf("cut at %d: %d movements, torn %q, %v", n, got, b.Torn, l)
		}
	}
}

// Every text is read as it was written, and no cell starts a formula.
func TestTextsReadBackExactly(t *testing.T) {
	if got := guard("=HYPERLINK(0)"); got != "'=HYPERLINK(0)" {
		t.Errorf("guard %q", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		text := func(label string) string {
			return rapid.OneOf(rapid.SampledFrom([]string{"=1+1", "+4", "-2", "@x", "\tx", "\rx", "'", "''=", "x\r", "a,b", `a"b`, " x ", "ü½"}), rapid.String().Filter(func(s string) bool { return badText(s) == "" })).
				Filter(func(s string) bool { return s != "" }).Draw(t, label)
		}
		m := move(CustomerIn, text("lot"), 1+measure.Milligram(rapid.Int64Range(0, 1e8-1).Draw(t, "grams")))
		m.Who, m.Owner, m.Note, m.Alloy, m.Job = text("who"), text("owner"), text("note"), text("alloy"), text("job")
		m.Fineness = Parts(rapid.Int64Range(1, 1e6).Draw(t, "fineness"))
		data := write(t, m)
		cells, err := csv.NewReader(bytes.NewReader(data[len(Header()):])).Read()
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range cells {
			if c != "" && strings.ContainsRune("=+-@\t\r", rune(c[0])) {
				t.Fatalf("a cell begins with %q", c)
			}
		}
		b, l := Read("metal.csv", data)
		if len(l) > 0 {
			t.Fatal(l)
		}
		got := b.Movements[0]
		m.ID, m.Place = 1, problem.Place{}
		got.Place = problem.Place{}
		if !got.At.Equal(m.At) {
			t.Fatalf("moment %v", got.At)
		}
		got.At = m.At
		if got != m {
			t.Fatalf("wrote %+v\nread  %+v", m, got)
		}
	})
}

// Lots stand in the order in which a person counts, whatever their names.
func TestLotsAreCounted(t *testing.T) {
	want := []string{"1", "2", "10", "B*", "B-9", "B-31", "B-31b", "B-31b2", "B-310", "L01", "L1", "L2", "L10", "L10-2", "L10-10", "LX"}
	var moves []Movement
	for i := range want {
		moves = append(moves, move(Bought, want[(i*7+3)%len(want)], 1_000))
	}
	b, _ := Read("metal.csv", write(t, moves...))
	for i, h := range b.OnHand() {
		if h.Lot != want[i] {
			t.Errorf("place %d has %s, not %s", i, h.Lot, want[i])
		}
	}
	// It is an order: of two names one comes first, and never round in a ring.
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringOfN(rapid.RuneFrom([]rune("019aL-")), 1, 6, -1)
		x, y, z := name.Draw(t, "x"), name.Draw(t, "y"), name.Draw(t, "z")
		if (x != y) != (before(x, y) || before(y, x)) || before(x, y) && before(y, x) {
			t.Fatalf("%q and %q", x, y)
		}
		if before(x, y) && before(y, z) && !before(x, z) {
			t.Fatalf("%q, %q, %q", x, y, z)
		}
	})
}

// A year of casts, kept beside the book by a ledger of its own: metal in is
// metal out, per alloy, to the milligram, and so is its fine metal.
func TestYearOfCasts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(low, high int) measure.Milligram {
			return measure.Milligram(rapid.IntRange(low, high).Draw(t, "pick"))
		}
		type alloy struct {
			name string
			fine Parts
		}
		alloys := []alloy{{"750 yellow", 751200}, {"585 red", 586000}}
		var moves []Movement
		var in, out, lost [2]measure.Milligram
		stock := map[string]measure.Milligram{} // by lot
		book := func(m Movement) { moves = append(moves, m) }
		for week := 1; week <= 50; week++ {
			a := week % 2
			at := func(m Movement) Movement { return m.alloy(alloys[a].name, alloys[a].fine) }
			grain, old := fmt.Sprint("grain ", a), fmt.Sprint("button ", a, " ", week-2)
			if stock[grain] < 80_000 {
				g := pick(100_000, 200_000)
				book(at(move(Bought, grain, g)))
				stock[grain] += g
				in[a] += g
			}
			tree := fmt.Sprintf("2026-W%02d-A", week)
			charge := pick(30_000, 80_000)
			book(at(move(ToTree, grain, charge)).tree(tree))
			stock[grain] -= charge
			if g := stock[old]; g > 0 {
				back := min(g, pick(1, 40_000))
				book(at(move(ToTree, old, back)).tree(tree).as(Button))
				stock[old] -= back
				charge += back
			}
			castings := charge * pick(30, 60) / 100
			button := charge*pick(30, 39)/100 + 1
			book(at(move(CastingsOut, "", castings)).tree(tree).alloyOnly())
			book(at(move(ButtonBack, fmt.Sprint("button ", a, " ", week), button)).tree(tree).as(Button))
			stock[fmt.Sprint("button ", a, " ", week)] += button
			out[a] += castings
			lost[a] += charge - castings - button
			if week%10 == 0 && stock[grain] > 0 {
				g := pick(1, int(stock[grain]))
				book(at(move(ToRefiner, grain, g)))
				stock[grain] -= g
				out[a] += g
			}
		}
		var data []byte = Header()
		for i, m := range moves { // AppendLine reads the whole book each time
			m.ID = i + 1
			line, err := encode(m)
			if err != nil {
				t.Fatal(err)
			}
			data = append(data, line...)
		}
		b, l := Read("metal.csv", data)
		if len(l) > 0 {
			t.Fatal(l)
		}
		var onHand, open [2]measure.Milligram
		var fine [2]Fine
		for _, s := range b.Sums() {
			for a := range alloys {
				if s.Alloy == alloys[a].name {
					onHand[a] += s.Grams
					fine[a] += s.Fine
				}
			}
		}
		for _, h := range b.OnHand() {
			if h.Grams != stock[h.Lot] {
				t.Fatalf("lot %s has %v, the ledger says %v", h.Lot, h.Grams, stock[h.Lot])
			}
		}
		for _, tr := range b.Trees() {
			for a := range alloys {
				if tr.Alloy == alloys[a].name {
					open[a] += tr.Open()
				}
			}
		}
		for a := range alloys {
			if in[a] != onHand[a]+out[a]+lost[a] || open[a] != lost[a] {
				t.Fatalf("%s: in %v, on hand %v, out %v, lost %v, open on trees %v", alloys[a].name, in[a], onHand[a], out[a], lost[a], open[a])
			}
			if Of(in[a], alloys[a].fine) != fine[a]+Of(out[a]+lost[a], alloys[a].fine) {
				t.Fatalf("%s: fine metal is not kept", alloys[a].name)
			}
		}
	})
}

func (m Movement) alloyOnly() Movement { m.Fineness = 0; return m }

func FuzzRead(f *testing.F) {
	var l fatal
	data := write(&l, week()...)
	f.Add(data)
	f.Add(data[:200])
	f.Add([]byte("\ufeff" + strings.ReplaceAll(string(data), "\n", "\r\n")))
	f.Add(Header())
	f.Add([]byte("id,at\n\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		b, l := Read("metal.csv", data)
		for _, p := range l {
			if p.Code == "" || p.Remedy == "" || p.Place.Line < 1 {
				t.Errorf("%+v", p)
			}
		}
		if len(l.Errors()) > 0 {
			return
		}
		for _, h := range b.OnHand() {
			if h.Grams < 0 {
				t.Errorf("lot %s has %v", h.Lot, h.Grams)
			}
		}
		// What was read is written and read the same.
		again := Header()
		for _, m := range b.Movements {
			line, err := encode(m)
			if err != nil {
				t.Fatal(err)
			}
			again = append(again, line...)
		}
		c, l2 := Read("metal.csv", again)
		if len(l2) > 0 || len(c.Movements) != len(b.Movements) {
			t.Fatalf("%v", l2)
		}
		for i, m := range c.Movements {
			o := b.Movements[i]
			m.Place, o.Place = problem.Place{}, problem.Place{}
			m.At, o.At = m.At.UTC(), o.At.UTC().Truncate(time.Second)
			if m != o {
				t.Fatalf("%+v\n%+v", o, m)
			}
		}
	})
}

type fatal struct{}

func (fatal) Fatalf(format string, args ...any) { panic(fmt.Sprintf(format, args...)) }
