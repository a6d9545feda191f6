// Command patterns makes the meshes of the sample workshop: closed solids that
// run into each other, as modellers leave them.
//
//	go run ./samples/patterns samples/saltmarsh/patterns
package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"sort"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: patterns FOLDER")
		os.Exit(64)
	}
	if err := write(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "patterns:", err)
		os.Exit(1)
	}
}

func write(folder string) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	all := patterns()
	var names []string
	for name := range all {
		names = append(names, name)
	}
	sort.Strings(names)
	for _, name := range names {
		if err := os.WriteFile(filepath.Join(folder, name+".stl"), stl(all[name]), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// stl writes the solids as one binary STL: an 80 byte header, the count, then
// 50 bytes a triangle.
func stl(solids []solid) []byte {
	var b bytes.Buffer
	count := 0
	for _, s := range solids {
		count += len(s)
	}
	header := make([]byte, 80)
	copy(header, "pattern of an invented workshop, millimetres")
	b.Write(header)
	put := func(v any) { _ = binary.Write(&b, binary.LittleEndian, v) }
	put(uint32(count))
	for _, s := range solids {
		for _, t := range s {
			n := t[1].sub(t[0]).cross(t[2].sub(t[0]))
			if l := n.length(); l > 0 {
				n = n.times(1 / l)
			}
			for _, p := range []vec{n, t[0], t[1], t[2]} {
				put([3]float32{float32(p[0]), float32(p[1]), float32(p[2])})
			}
			put(uint16(0))
		}
	}
	return b.Bytes()
}
