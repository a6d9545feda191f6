package workbook

import (
	"testing"

	"castweek/sheets/internal/trial"
)

func TestInputsUntouched(t *testing.T) {
	typed, err := Inputs(write(t, trial.Cast()))
	if err != nil || len(typed) != 0 {
		t.Errorf("a workbook as it is written holds %v, %v", typed, err)
	}
}

func TestInputsTyped(t *testing.T) {
	c := trial.Cast()
	f := open(t, write(t, c))
	charge, stones := chargeTable(c), stonesTable(c)
	if err := f.SetCellFloat("Charge", charge.letters("real")+"3", 12.5, -1, 64); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellStr("Stones", stones.letters("pulled")+"2", "0"); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellFormula("Charge", charge.letters("in_g")+"2", "80+2"); err != nil {
		t.Fatal(err)
	}
	// a person may have renamed a sheet
	if err := f.SetSheetName("Charge", "My charge"); err != nil {
		t.Fatal(err)
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	typed, err := Inputs(buf.Bytes())
	if err != nil || len(typed) != 3 {
		t.Fatalf("found %v, %v; want three typed cells", typed, err)
	}
	if typed[0] != (Typed{"My charge", charge.letters("real") + "3", "12.5"}) {
		t.Errorf("found %v", typed[0])
	}
}

// What cannot be told is an error, so that nobody writes over it.
func TestInputsThatCannotBeTold(t *testing.T) {
	good := write(t, trial.Cast())
	f := open(t, good)
	if err := f.DeleteSheet("Charge"); err != nil {
		t.Fatal(err)
	}
	buf, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{"empty": nil, "text": []byte("not a workbook"), "cut short": good[:len(good)/2],
		"charge deleted": buf.Bytes(), "huge": make([]byte, largestFile+1)} {
		if typed, err := Inputs(data); err == nil {
			t.Errorf("%s: no error, typed %v", name, typed)
		}
	}
}

func FuzzInputs(f *testing.F) {
	data, _, err := Write(trial.Cast())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, data []byte) { _, _ = Inputs(data) })
}
