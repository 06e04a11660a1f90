package compile_test

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"notchbook/compile"
)

// Hard numbers never panic, hang, or make a figure that is none: zero, negative,
// huge and tiny values stand wherever the notation takes a number. What comes of
// them is a diagnostic or nothing.
func FuzzHardNumbers(f *testing.F) {
	for _, n := range []string{"0", "-1", "1e9", "999999999999999999999999", "0.0000000001", "1/0", "0/0", "½", "-½", "1e308", "00", "9", "NaN", "Inf", "1:0", "+0"} {
		f.Add(n, n, "1/30")
		f.Add("16", n, n)
	}
	f.Fuzz(func(t *testing.T, a, b, c string) {
		if len(a)+len(b)+len(c) > 200 || strings.ContainsAny(a+b+c, "\r\n") {
			return
		}
		// The writer's own words are shown as he typed them.
		words := strings.Contains(strings.ToLower(a+b+c), "nan") || strings.Contains(strings.ToLower(a+b+c), "inf")
		season, _ := compile.Compile(compile.World{Read: func(string) ([]byte, error) { return []byte(hardNotes(a, b, c)), nil }}, "notes.md")
		if path := notANumber(reflect.ValueOf(season), "season", map[uintptr]bool{}); path != "" && !(words && strings.Contains(path, `"`)) {
			t.Errorf("%s is not a number, with %q, %q, %q", path, a, b, c)
		}
	})
}

// hardNotes puts three numbers into every place that takes one.
func hardNotes(a, b, c string) string {
	r := strings.NewReplacer("A", a, "B", b, "C", c)
	return r.Replace(`camera k: 4x5, ext A-B mm, circle of confusion C mm
lens l: A mm, fB-fC, circle A mm, shutter to 1/B, tested 1/60=C, bellows Amm +B, Bmm +C, flange C mm
film p: ISO A, EI B, reciprocity t^C over As, N A:B, shorten A % at Bs
film q: ISO 100, reciprocity As=Bs Bs=Cs
filter x: xA
filter y: B stops
filter z: nd C
tolerance: A stop
day: 2026-11-07
lens: l
film: p
meter: fA C
3a: fB C, x + y
3b: EV A on III, EV B on VII, z, ext Bmm, C fA
4a: metered C fA at EI B, gave C fB, 1:A, bracket +B
4b: film q, metered As f16, Bs fC, mag A, focus B m
5a: incident EV A, C x B, focus spread A mm, near B m, far C m, f22 C
5b: sunny 16, ND A, rise B, shift C, 1/A fB
density 3a: base+fog A, card B
develop 3a: A:B, Cc
`)
}

// notANumber finds a figure that is NaN or infinite, and says where.
func notANumber(v reflect.Value, path string, seen map[uintptr]bool) string {
	switch v.Kind() {
	case reflect.Float64:
		if strings.HasSuffix(path, ".Reading.EV") {
			return "" // NaN there says that the reading is not whole
		}
		if math.IsNaN(v.Float()) || math.IsInf(v.Float(), 0) {
			return path
		}
	case reflect.Pointer:
		if v.IsNil() || seen[v.Pointer()] {
			return ""
		}
		seen[v.Pointer()] = true
		return notANumber(v.Elem(), path, seen)
	case reflect.Interface:
		return notANumber(v.Elem(), path, seen)
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := notANumber(v.Field(i), path+"."+v.Type().Field(i).Name, seen); bad != "" {
				return bad
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if bad := notANumber(v.Index(i), path+"[]", seen); bad != "" {
				return bad
			}
		}
	case reflect.String:
		for _, word := range []string{"NaN", "+Inf", "-Inf", "Inf stop"} {
			if strings.Contains(v.String(), word) && !strings.Contains(path, "Source") && !strings.Contains(path, "Text") && !strings.Contains(path, "Excerpt") {
				return path + ` "` + v.String() + `"`
			}
		}
	}
	return ""
}
