package main

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
)

// typeWeight puts a number into the first cell for the weight of a built tree,
// as a person does who types it and saves. It knows the file format only, not
// what writes the workbook.
func typeWeight(book []byte, value string) ([]byte, error) {
	in, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		return nil, err
	}
	parts, order := map[string]string{}, []string{}
	for _, f := range in.File {
		r, err := f.Open()
		if err != nil {
			return nil, err
		}
		data, err := io.ReadAll(r)
		if err != nil {
			return nil, err
		}
		parts[f.Name], order = string(data), append(order, f.Name)
	}
	at := regexp.MustCompile(`name="typed_built_tree">(\w+)!\$([A-Z]+)\$(\d+)`).FindStringSubmatch(parts["xl/workbook.xml"])
	if at == nil {
		return nil, fmt.Errorf("no cell for a built tree")
	}
	sheet := regexp.MustCompile(`<sheet name="` + at[1] + `" sheetId="(\d+)"`).FindStringSubmatch(parts["xl/workbook.xml"])
	cell := regexp.MustCompile(`<c r="` + at[2] + at[3] + `"( s="\d+")?( t="\w+")?(/>|></c>)`)
	name := "xl/worksheets/sheet" + sheet[1] + ".xml"
	typed := cell.ReplaceAllString(parts[name], `<c r="`+at[2]+at[3]+`"$1><v>`+value+`</v></c>`)
	if typed == parts[name] || strings.Count(typed, value) == 0 {
		return nil, fmt.Errorf("cell %s%s of %s is not empty", at[2], at[3], name)
	}
	parts[name] = typed
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, n := range order {
		w, err := z.Create(n)
		if err != nil {
			return nil, err
		}
		if _, err := io.WriteString(w, parts[n]); err != nil {
			return nil, err
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
