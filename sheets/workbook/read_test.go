package workbook

import (
	"archive/zip"
	"bytes"
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

// FuzzInputs puts bytes in the place of one part of a sound workbook, since a
// zip file with a wrong checksum is refused before anything else is read.
func FuzzInputs(f *testing.F) {
	data, _, err := Write(trial.Cast())
	if err != nil {
		f.Fatal(err)
	}
	in, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		f.Fatal(err)
	}
	for i, part := range in.File {
		text, err := read(part)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(uint8(i), text)
	}
	f.Add(uint8(0), []byte("PK\x03\x04"))
	f.Fuzz(func(t *testing.T, which uint8, text []byte) {
		_, _ = Inputs(text)
		var out bytes.Buffer
		w := zip.NewWriter(&out)
		for i, part := range in.File {
			body := text
			if i != int(which)%len(in.File) {
				body, _ = read(part)
			}
			to, err := w.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Deflate})
			if err != nil {
				t.Fatal(err)
			}
			if _, err := to.Write(body); err != nil {
				t.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		_, _ = Inputs(out.Bytes())
	})
}
