package pattern

import (
	"bytes"
	"encoding/binary"
	"math"
)

const (
	stlHeader = 84 // 80 free bytes and a count of four
	stlFacet  = 50 // normal, three points, two attribute bytes
)

// readSTL tells binary from ASCII by the size first, since many binary files
// begin with the word "solid". Layout: Marshall Burns, Automated Fabrication
// (1993), 6.5, after the StereoLithography Interface Specification of 1989.
func (r *reader) readSTL() error {
	d := r.data
	if len(d) >= stlHeader {
		count := uint64(binary.LittleEndian.Uint32(d[80:]))
		if stlHeader+stlFacet*count == uint64(len(d)) {
			return r.readBinarySTL(int(count))
		}
	}
	if looksLikeASCII(d) {
		return r.readASCIISTL()
	}
	return r.notSTL()
}

// looksLikeASCII wants the word "solid" first, and one of the words that must
// follow near the top.
func looksLikeASCII(d []byte) bool {
	t := bytes.TrimLeft(bytes.TrimPrefix(d, []byte("\xef\xbb\xbf")), " \t\r\n\v\f")
	if len(t) < 5 || !bytes.EqualFold(t[:5], []byte("solid")) {
		return false
	}
	head := bytes.ToLower(t[5:min(len(t), 4096)])
	if bytes.IndexByte(head, 0) >= 0 {
		return false
	}
	return bytes.Contains(head, []byte("facet")) || bytes.Contains(head, []byte("endsolid"))
}

// notSTL finds words for what the file is instead.
func (r *reader) notSTL() error {
	d := r.data
	const send = "export the pattern again as binary STL, and copy it again"
	switch {
	case bytes.HasPrefix(d, []byte{0x1f, 0x8b}):
		return r.fail("mesh-not-stl", "unpack the file first", "this is a gzip archive, not an STL")
	case bytes.HasPrefix(d, []byte{0xff, 0xfe}), bytes.HasPrefix(d, []byte{0xfe, 0xff}):
		return r.fail("mesh-not-stl", "save the file as plain text (ASCII or UTF-8), or export it as binary STL", "this text is in UTF-16")
	case bytes.HasPrefix(bytes.TrimLeft(d, " \t\r\n"), []byte("<")):
		return r.fail("mesh-not-stl", "fetch the file again; this looks like a web page", "this is a page of markup, not an STL")
	case len(d) < stlHeader:
		return r.fail("mesh-damaged", send, "an STL of %d bytes is cut off: a binary one has at least %d", len(d), stlHeader)
	}
	count := uint64(binary.LittleEndian.Uint32(d[80:]))
	swapped := uint64(binary.BigEndian.Uint32(d[80:]))
	present := (len(d) - stlHeader) / stlFacet
	switch {
	case stlHeader+stlFacet*swapped == uint64(len(d)):
		return r.fail("mesh-byte-order", send, "the numbers stand in big-endian order, which an STL may not use")
	case present > 0 && r.plausibleFacets(min(present, 10)):
		return r.fail("mesh-damaged", send, "the file says %d faces, but its %d bytes hold %d and %d bytes over: it is damaged or not copied whole",
			count, len(d), present, (len(d)-stlHeader)%stlFacet)
	}
	return r.fail("mesh-not-stl", send, "this is not an STL: neither the word solid nor a plausible binary layout")
}

// plausibleFacets tells whether the first n facets decode to ordinary numbers.
func (r *reader) plausibleFacets(n int) bool {
	for i := range n {
		for k := 3; k < 12; k++ {
			v := float64(math.Float32frombits(binary.LittleEndian.Uint32(r.data[stlHeader+stlFacet*i+4*k:])))
			if !(math.Abs(v) < largest) || (v != 0 && math.Abs(v) < 1e-20) {
				return false
			}
		}
	}
	return true
}

// readBinarySTL reads count facets, a number already checked against the size.
func (r *reader) readBinarySTL(count int) error {
	if err := r.tooMany(count); err != nil {
		return err
	}
	r.format = "binary STL"
	r.mesh.Faces = make([][3]int32, 0, count)
	r.points = make([][3]float64, 0, count/2+count/16+16)
	most := 0.0
	for i := range count {
		at := r.data[stlHeader+stlFacet*i : stlHeader+stlFacet*(i+1)]
		var v [12]float64
		for k := range v {
			v[k] = float64(math.Float32frombits(binary.LittleEndian.Uint32(at[4*k:])))
		}
		for _, c := range v[3:] {
			if math.IsNaN(c) || math.IsInf(c, 0) {
				return r.fail("mesh-not-finite", "export the pattern again", "face %d of %d has a corner that is no number", i+1, count)
			}
			most = max(most, math.Abs(c))
		}
		r.triangle([3]float64(v[3:6]), [3]float64(v[6:9]), [3]float64(v[9:12]))
		if i%normalsLooked == 0 {
			r.storedNormal(Point(v[:3]), Point(v[3:6]), Point(v[6:9]), Point(v[9:12]))
		}
	}
	r.mesh.grain = most / (1 << 24)
	return nil
}

// normalsLooked: every so many-th stated normal is looked at.
const normalsLooked = 8

// storedNormal counts the stated normals that contradict the order of the
// points. The order is what counts; the normal is only a witness.
func (r *reader) storedNormal(n, a, b, c Point) {
	if d := n.dot(b.sub(a).cross(c.sub(a))); d < 0 {
		r.mesh.backward++
	} else if d > 0 {
		r.mesh.forward++
	}
}
