package save

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

func line(s string) func([]byte) ([]byte, error) {
	return func([]byte) ([]byte, error) { return []byte(s), nil }
}

func TestAppend(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list")
	for i, s := range []string{"a\n", "b\nc\n"} {
		if torn, err := Append(path, line(s)); err != nil || len(torn) > 0 {
			t.Fatal(i, torn, err)
		}
	}
	no := errors.New("no")
	if _, err := Append(path, func(old []byte) ([]byte, error) {
		if string(old) != "a\nb\nc\n" {
			t.Errorf("holds %q", old)
		}
		return []byte("d\n"), no
	}); !errors.Is(err, no) {
		t.Error(err)
	}
	if _, err := Append(path, line("half")); err == nil {
		t.Error("half a line is added")
	}
	if got, err := Read(path); err != nil || string(got) != "a\nb\nc\n" {
		t.Errorf("%q %v", got, err)
	}
}

func TestAppendSetsTornLineAside(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list")
	if err := os.WriteFile(path, []byte("a\nbc"), 0o644); err != nil {
		t.Fatal(err)
	}
	torn, err := Append(path, line("d\n"))
	if err != nil || string(torn) != "bc" {
		t.Fatalf("%q %v", torn, err)
	}
	got, _ := os.ReadFile(path)
	aside, _ := os.ReadFile(path + TornSuffix)
	if string(got) != "a\nd\n" || string(aside) != "bc\n" {
		t.Errorf("%q, aside %q", got, aside)
	}
}

// A write that fails half way leaves the file as it was.
func TestAppendFailing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list")
	if _, err := Append(path, line("a\n")); err != nil {
		t.Fatal(err)
	}
	full := errors.New("disk full")
	was := writeTo
	defer func() { writeTo = was }()
	writeTo = func(f *os.File, data []byte) error { f.Write(data[:2]); return full }
	if _, err := Append(path, line("bcde\n")); !errors.Is(err, full) {
		t.Error(err)
	}
	if got, _ := os.ReadFile(path); string(got) != "a\n" {
		t.Errorf("%q", got)
	}
}

func TestTwoWritersLoseNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "list")
	var wg sync.WaitGroup
	const each = 50
	for w := range 4 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range each {
				if _, err := Append(path, line(fmt.Sprintf("writer %d line %d\n", w, i))); err != nil {
					t.Error(err)
				}
			}
		}()
	}
	wg.Wait()
	got, _ := os.ReadFile(path)
	for w := range 4 {
		for i := range each {
			if n := bytes.Count(got, fmt.Appendf(nil, "writer %d line %d\n", w, i)); n != 1 {
				t.Errorf("writer %d line %d is there %d times", w, i, n)
			}
		}
	}
}

// killChild, when set, makes this test binary append lines until it is killed.
const killChild = "CASTWEEK_TEST_APPEND"

func TestMain(m *testing.M) {
	if path := os.Getenv(killChild); path != "" {
		appendForEver(path, os.Getenv(killChild+"_NAME"))
	}
	os.Exit(m.Run())
}

// appendForEver writes each line in small pieces, so that a kill falls into it,
// and confirms it on standard output once it is on the disk.
func appendForEver(path, name string) {
	writeTo = func(f *os.File, data []byte) error {
		for len(data) > 0 {
			n := min(7, len(data))
			if _, err := f.Write(data[:n]); err != nil {
				return err
			}
			data = data[n:]
			time.Sleep(20 * time.Microsecond)
		}
		return nil
	}
	for i := 1; ; i++ {
		text := fmt.Sprintf("%s %d %s", name, i, strings.Repeat("metal ", 5))
		if _, err := Append(path, line(text+".\n")); err != nil {
			fmt.Println("failed:", err)
			os.Exit(1)
		}
		fmt.Println(text + ".")
	}
}

// Writers are killed at random, 1,000 times, two at work at any time. Every
// line is whole, and none that was confirmed is lost or there twice.
func TestKilledWriters(t *testing.T) {
	kills := 1000
	if testing.Short() {
		kills = 100
	}
	path := filepath.Join(t.TempDir(), "list")
	confirmed := make([][]string, kills)
	var wg sync.WaitGroup
	for w := range 2 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			random := rand.New(rand.NewSource(int64(w)))
			for k := w; k < kills; k += 2 {
				lines, err := runAndKill(path, fmt.Sprint("child-", k), time.Duration(random.Intn(4000))*time.Microsecond)
				if err != nil {
					t.Error(err)
					return
				}
				confirmed[k] = lines
			}
		}()
	}
	wg.Wait()
	torn, err := Append(path, line("last\n"))
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	there := map[string]int{}
	for l := range strings.Lines(string(data)) {
		if l != "last\n" && (!strings.HasPrefix(l, "child-") || strings.Count(l, "child-") != 1 || !strings.HasSuffix(l, " .\n")) {
			t.Fatalf("half a line: %q", l)
		}
		there[strings.TrimSuffix(l, "\n")]++
	}
	count := 0
	for _, lines := range confirmed {
		for _, l := range lines {
			if there[l] != 1 {
				t.Fatalf("%q was confirmed and is there %d times", l, there[l])
			}
			count++
		}
	}
	aside, _ := os.ReadFile(path + TornSuffix)
	t.Logf("%d kills, %d lines confirmed, %d there, %d torn lines set aside, last one %q", kills, count, len(there)-1, bytes.Count(aside, []byte("\n")), torn)
	if count < kills/2 || len(aside) == 0 {
		t.Error("the kills did not fall among the writes")
	}
}

// runAndKill lets a child append, kills it a while after its first confirmed
// line, and returns all lines that it confirmed.
func runAndKill(path, name string, after time.Duration) (lines []string, err error) {
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), killChild+"="+path, killChild+"_NAME="+name)
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := c.Start(); err != nil {
		return nil, err
	}
	r := bufio.NewReader(out)
	for first := true; ; first = false {
		l, err := r.ReadString('\n')
		if strings.HasPrefix(l, "failed") {
			return nil, errors.New(l)
		}
		if err != nil { // the end; a confirmation cut short is none
			if err != io.EOF {
				return nil, err
			}
			break
		}
		lines = append(lines, strings.TrimSuffix(l, "\n"))
		if first {
			time.AfterFunc(after, func() { c.Process.Kill() })
		}
	}
	c.Wait()
	return lines, nil
}

// A file that next refuses, another kind of text perhaps, stays as it is to the
// last byte; nothing of it is set aside.
func TestARefusedFileStaysAsItIs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "metal.csv")
	const text = "a\x00\n\x00unfinished"
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	refusal := errors.New("not a book")
	torn, err := Append(path, func([]byte) ([]byte, error) { return nil, refusal })
	if !errors.Is(err, refusal) || len(torn) > 0 {
		t.Errorf("%q, %v", torn, err)
	}
	if got, _ := os.ReadFile(path); string(got) != text {
		t.Errorf("the file is %q", got)
	}
	if _, err := os.Stat(path + TornSuffix); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("something was set aside: %v", err)
	}
}
