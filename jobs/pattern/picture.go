package pattern

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math"
)

const (
	// pictureHeight is how many dots the tallest view of a picture takes at
	// least, and mostHeight at most.
	pictureHeight = 640
	mostHeight    = 2000
	// leastDots is how many dots a mm a picture has: 300 an inch, so that it is
	// sharp when printed at true size.
	leastDots = 300 / 25.4
)

// Picture draws the views side by side as a grey PNG, shaded as if lit from
// above the left shoulder. It states its dots a metre, so that it prints at true
// size. The same views give the same bytes.
func Picture(views ...View) ([]byte, error) {
	const margin = 20
	tallest := 0.0
	for _, v := range views {
		tallest = max(tallest, float64(v.Height), float64(v.Width))
	}
	if !(tallest > 0) {
		tallest = 1
	}
	scale := min(max(pictureHeight/tallest, leastDots), mostHeight/tallest) // dots a mm
	width, height := margin, 0
	for _, v := range views {
		width += int(float64(v.Width)*scale) + margin
		height = max(height, int(float64(v.Height)*scale)+2*margin)
	}
	img := image.NewGray(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	x := margin
	for _, v := range views {
		w, h := int(float64(v.Width)*scale), int(float64(v.Height)*scale)
		for j := range h {
			for i := range w {
				img.SetGray(x+i, height-margin-1-j, v.dots.grey((float64(i)+0.5)/scale, (float64(j)+0.5)/scale, 1/scale))
			}
		}
		x += w + margin
	}
	var out bytes.Buffer
	if err := png.Encode(&out, img); err != nil {
		return nil, err
	}
	return withScale(out.Bytes(), uint32(math.Round(scale*1000))), nil
}

// withScale puts the dots a metre into a PNG, in the chunk pHYs behind the
// header (Portable Network Graphics Specification, third edition, 11.3.4.3).
// The header's chunk is always 25 bytes long, after a signature of 8.
func withScale(data []byte, dots uint32) []byte {
	chunk := []byte("pHYs")
	chunk = binary.BigEndian.AppendUint32(chunk, dots)
	chunk = binary.BigEndian.AppendUint32(chunk, dots)
	chunk = append(chunk, 1) // the unit is the metre
	const header = 8 + 25
	out := append([]byte(nil), data[:header]...)
	out = binary.BigEndian.AppendUint32(out, uint32(len(chunk)-4))
	out = append(out, chunk...)
	out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(chunk))
	return append(out, data[header:]...)
}

// grey averages four samples of the square of the given size around (x, y) in
// mm.
func (d *dots) grey(x, y, size float64) color.Gray {
	light := Point{-0.4, 0.5, 0.77}
	sum := 0.0
	for k := range 4 {
		i := int((x + size*(float64(k%2)-0.5)/2) / d.step)
		j := int((y + size*(float64(k/2)-0.5)/2) / d.step)
		if i < 0 || j < 0 || i >= d.cols || j >= d.rows || d.face[j*d.cols+i] < 0 {
			sum += 255
			continue
		}
		n := d.normal[j*d.cols+i]
		shade := 60 + 170*math.Max(0, n.dot(light))
		if d.edged(i, j) {
			shade *= 0.55
		}
		sum += shade
	}
	return color.Gray{Y: uint8(sum / 4)}
}

// edged tells whether a visible edge or the outline passes the dot.
func (d *dots) edged(i, j int) bool {
	at := j*d.cols + i
	if i+1 < d.cols && (d.crease(at, at+1, 0) || d.rim(at, at+1, 0)) {
		return true
	}
	return j+1 < d.rows && (d.crease(at, at+d.cols, 1) || d.rim(at, at+d.cols, 1))
}
