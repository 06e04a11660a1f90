package data

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"notchbook/compile/record"
)

func scanned() (*record.Season, *record.Scan) {
	outing := &record.Outing{Title: "Mill", ISO: "2026-10-04", Place: "Aldermoor <mill> & race"}
	sheet := &record.Sheet{ID: "2026-10-04 3A", Label: "3A", Outing: outing, Film: "sedge", Lens: "long", EI: record.Known(64),
		Given:     record.Settings{Aperture: "f/16½", Time: "20 s", Av: record.Known(8.5), Seconds: record.Known(20)},
		Developed: []record.Development{{Text: "N-1 8:30"}}, Remarks: []string{"wind"}, Filters: []string{"Y8", "CF"}}
	scan := &record.Scan{Path: "scans/3a.tif", State: record.Present, SHA256: strings.Repeat("0f", 32), Sheets: []*record.Sheet{sheet}}
	kit := []*record.Item{{Kind: "lens", Name: "long", Facts: []record.Fact{{Name: "focal length", Value: "300 mm"}}}}
	return &record.Season{Kit: kit, Sheets: scan.Sheets, Scans: []*record.Scan{scan}}, scan
}

func wantWellFormed(t *testing.T, text []byte) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(string(text)))
	for {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

// XMP 2, Exif schema for XMP (CIPA DC-010): rationals as "n/d", and f/16½ is
// 16 x 2^(1/4) = 19.03.
func TestXMP(t *testing.T) {
	season, scan := scanned()
	text := XMP(season, scan, "notchbook 1.0")
	wantWellFormed(t, text)
	for _, want := range []string{
		"<exif:FNumber>19/1</exif:FNumber>", "<exif:ExposureTime>20/1</exif:ExposureTime>", "<exif:FocalLength>300/1</exif:FocalLength>",
		"<exifEX:PhotographicSensitivity>64</exifEX:PhotographicSensitivity>", "<exif:DateTimeOriginal>2026-10-04</exif:DateTimeOriginal>",
		"<dc:identifier>2026-10-04 3A</dc:identifier>", "Sheet 3A; Aldermoor &lt;mill&gt; &amp; race; film sedge; lens long; filter Y8 + CF; given f/16½ 20 s; developed N-1 8:30; wind",
	} {
		if !strings.Contains(string(text), want) {
			t.Errorf("lacks %s:\n%s", want, text)
		}
	}
	scan.Sheets = append(scan.Sheets, scan.Sheets[0])
	if two := string(XMP(season, scan, "")); strings.Contains(two, "exif:FNumber>") {
		t.Error("a file of two sheets states one aperture")
	}
}

// What was engraved is said as engraved; the exact value of f/11 is 11.3, of
// 1/60 is 1/64.
func TestNominalSettings(t *testing.T) {
	for _, c := range []struct {
		given record.Settings
		f, t  string
	}{
		{record.Settings{Aperture: "f/11", Av: record.Known(7), Time: "1/60", Seconds: record.Known(1. / 64)}, "11/1", "1/60"},
		{record.Settings{Aperture: "f/5.6", Av: record.Known(5), Time: "½ s", Seconds: record.Known(0.5)}, "56/10", "5/10"},
		{record.Settings{Aperture: "f/0.7", Av: record.Known(-1)}, "7/10", ""},
		{record.Settings{Aperture: "f/8⅔", Av: record.Known(6 + 2./3), Seconds: record.Known(0.11)}, "101/10", "1/9"},
		{record.Settings{}, "", ""},
	} {
		if f, t2 := apertureRatio(c.given), timeRatio(c.given); f != c.f || t2 != c.t {
			t.Errorf("%+v: %q and %q, want %q and %q", c.given, f, t2, c.f, c.t)
		}
	}
}

func TestOwnXMP(t *testing.T) {
	season, scan := scanned()
	own := string(XMP(season, scan, "notchbook 1.0"))
	for text, want := range map[string]bool{
		own: true, own + "\n": false, strings.Replace(own, "sedge", "curlew", 1): false, "": false, own[:len(own)/2]: false, "<x:xmpmeta/>": false,
	} {
		if OwnXMP([]byte(text)) != want {
			t.Errorf("%v for\n%s", !want, text)
		}
	}
}

// GNU coreutils, "cksum output modes": a name with a backslash or a line's end
// is escaped, and the line begins with a backslash.
func TestSums(t *testing.T) {
	season, scan := scanned()
	season.Scans = append(season.Scans, &record.Scan{Path: "no.tif", State: record.Missing}, &record.Scan{Path: "a\\b\nc", State: record.Orphan, SHA256: scan.SHA256})
	var b strings.Builder
	if err := Sums(&b, season, "../"); err != nil {
		t.Fatal(err)
	}
	digest := strings.Repeat("0f", 32)
	if want := digest + "  ../scans/3a.tif\n\\" + digest + "  ../a\\\\b\\nc\n"; b.String() != want {
		t.Errorf("%q, want %q", b.String(), want)
	}
}
