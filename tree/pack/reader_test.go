package pack

import "testing"

// TestReaders reads the oddities that the published files hold.
func TestReaders(t *testing.T) {
	for _, text := range []string{"3\r\n10\r\n7\r\n5\r\n3\r\n", "3\n10\n7\n5\n3"} {
		q, err := readLine([]byte(text))
		if err != nil || len(q.Items) != 3 || q.Bins[0].Capacity[0] != 10 || q.Items[2].Size[0] != 3 {
			t.Errorf("%q: %+v %v", text, q, err)
		}
	}
	q, err := readVector([]byte("2\n10 20\n3\n1 2 1\n1 2 1\n0 5 2\n"))
	if err != nil || len(q.Items) != 4 || q.Items[3].Size[0] != 0 || q.Bins[0].Capacity[1] != 20 {
		t.Errorf("%+v %v", q, err)
	}
	s, err := readSetups([]byte("3\t2\t10\t1\n-4\t2\t2\n-1\t1\t1\n4\n4\n5"))
	if err != nil || s.Classes[0].Cost != 4 || len(s.Classes[0].Items) != 2 || s.Classes[1].Items[0] != 5 {
		t.Errorf("%+v %v", s, err)
	}
	for _, bad := range []string{"", "x", "3\n10\n7\n5", "-1\n10"} {
		if _, err := readLine([]byte(bad)); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
	for _, bad := range []string{"", "0", "2\n10", "2\n10 20\n2\n1 2 1\n", "2\n10 20\n1\n1 2 -1\n"} {
		if _, err := readVector([]byte(bad)); err == nil {
			t.Errorf("%q is taken", bad)
		}
	}
}

// FuzzReadLine and FuzzReadVector: whatever is read is answered or refused, never a panic.
func FuzzReadLine(f *testing.F) {
	f.Add("3\r\n10\r\n7\r\n5\r\n3\r\n")
	f.Fuzz(func(t *testing.T, text string) { solveRead(t, text, readLine) })
}

func FuzzReadVector(f *testing.F) {
	f.Add("2\n10 20\n3\n1 2 1\n1 2 1\n0 5 2\n")
	f.Fuzz(func(t *testing.T, text string) { solveRead(t, text, readVector) })
}

func FuzzReadWeek(f *testing.F) {
	f.Add(`{"usable_trunk_height_um":10,"max_patterns_per_tree":3,"alloys":[{"id":"a","net_charge_mg":9}],"patterns":[{"id":"p","job":"j","alloy":"a","metal_mg":4,"height_share_um":2}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		w, err := readWeek([]byte(text))
		if err != nil || len(text) > 2000 {
			return
		}
		for _, q := range w.groups("ams") {
			q.Limit = 100_000
			if a, fs := Solve(q); fs == nil && len(a.Groups)+len(a.Left) == 0 {
				t.Error("nothing came of it")
			}
		}
	})
}

func solveRead(t *testing.T, text string, from func([]byte) (Question, error)) {
	q, err := from([]byte(text))
	if err != nil || len(q.Items) > 40 {
		return
	}
	q.Limit = 100_000
	a, fs := Solve(q)
	if fs != nil {
		return
	}
	if err := Check(&q, &a); err != nil {
		t.Error(err)
	}
}
