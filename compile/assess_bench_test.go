package compile

import (
	"os"
	"path/filepath"
	"testing"

	"notchbook/compile/record"
	"notchbook/compile/slip"
)

// BenchmarkAssess is the cost of one sheet's arithmetic, over ten thousand
// sheets of every kind (testdata/independent).
func BenchmarkAssess(b *testing.B) {
	const folder = "../testdata/independent"
	files, err := filepath.Glob(filepath.Join(folder, "*.md"))
	if err != nil || len(files) == 0 {
		b.Fatal("no notebooks", err)
	}
	var names []string
	for _, f := range files {
		names = append(names, filepath.Base(f))
	}
	s := compiled(World{Read: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }}, names)
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		sh := s.sheets[i%len(s.sheets)]
		sh.sum = s.assessed(sh, false)
	}
}

// BenchmarkDiagnose is the cost of finding what fits one sheet that is off.
func BenchmarkDiagnose(b *testing.B) {
	const folder = "../testdata/independent"
	s := compiled(World{Read: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }}, []string{"notes-1.md"})
	var off []int
	for i, sh := range s.sheets {
		if sh.sum.state == record.Off {
			off = append(off, i)
		}
	}
	b.ReportAllocs()
	b.ResetTimer()
	for i := range b.N {
		at := off[i%len(off)]
		slip.Diagnose(s.caseOf(s.sheets[at], s.sheets[max(0, at-nearby):at]))
	}
}
