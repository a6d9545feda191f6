package pattern

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"math"
)

// pictureHeight is how many dots the tallest view of a picture takes.
const pictureHeight = 640

// Picture draws the views side by side as a grey PNG, shaded as if lit from
// above the left shoulder. The same views give the same bytes.
func Picture(views ...View) ([]byte, error) {
	const margin = 20
	tallest := 0.0
	for _, v := range views {
		tallest = max(tallest, float64(v.Height), float64(v.Width))
	}
	if !(tallest > 0) {
		tallest = 1
	}
	scale := pictureHeight / tallest // dots a mm
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
	err := png.Encode(&out, img)
	return out.Bytes(), err
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
