package page

import (
	"bytes"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/gomonobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// A Face is one of the Go fonts.
type Face int

const (
	Regular Face = iota
	Bold
	Mono // for codes: job and casting numbers
	MonoBold
	faces
)

var faceData = [faces][]byte{goregular.TTF, gobold.TTF, gomono.TTF, gomonobold.TTF}
var faceName = [faces]string{"goregular", "gobold", "gomono", "gomonobold"}

// A glyphs holds the advance of each character of the basic plane in
// thousandths of an em, -1 where the face has no glyph.
type glyphs [0x10000]int16

var (
	glyphOnce [faces]sync.Once
	glyphOf   [faces]*glyphs
)

// table reads a face once for the whole program. The bytes are only read here;
// documents get clones, because the library writes into what it is given.
func (f Face) table() *glyphs {
	glyphOnce[f].Do(func() {
		t := new(glyphs)
		for r := range t {
			t[r] = -1
		}
		glyphOf[f] = t
		parsed, err := sfnt.Parse(faceData[f])
		if err != nil {
			return // every character is then a box with a remark
		}
		var buf sfnt.Buffer
		for r := ' '; r < 0x10000; r++ {
			i, err := parsed.GlyphIndex(&buf, r)
			if err != nil || i == 0 {
				continue
			}
			w, err := parsed.GlyphAdvance(&buf, i, fixed.I(1000), font.HintingNone)
			if err == nil {
				t[r] = int16(w.Round())
			}
		}
	})
	return glyphOf[f]
}

// Has tells whether the face has a glyph for r.
func (f Face) Has(r rune) bool { return r >= ' ' && r < 0x10000 && f.table()[r] >= 0 }

// use adds the face to the document on first use: the library embeds every
// face it is given, used or not.
func (d *Doc) use(f Face) {
	if !d.added[f] {
		d.added[f] = true
		d.pdf.AddUTF8FontFromBytes(faceName[f], "", bytes.Clone(faceData[f]))
	}
}
