package data

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/xml"
	"fmt"
	"math"
	"strconv"
	"strings"

	"notchbook/compile/record"
	"notchbook/lang/pattern"
)

// An XMP sidecar (ISO 16684-1) says of a scan what the notes say of its sheet,
// in properties that every reader of XMP knows: Dublin Core, and those of TIFF
// and EXIF (CIPA DC-010). What has no property of its own stands in the
// description, in words; nothing is put into a property that means another thing.
//
// A file that shows several sheets has one exposure no more, so that it gets
// words only.

// XMP gives the sidecar of a scan. generator names the program, with its
// version. The same record gives the same bytes.
func XMP(s *record.Season, scan *record.Scan, generator string) []byte {
	x := sidecar{season: s}
	x.text("xmp:CreatorTool", generator)
	x.text("dc:source", scan.Path)
	if len(scan.Sheets) == 1 {
		x.exposure(scan.Sheets[0])
	}
	var ids, titles, words []string
	for _, sheet := range scan.Sheets {
		ids = append(ids, sheet.ID)
		if t := title(sheet); t != "" && (len(titles) == 0 || titles[len(titles)-1] != t) {
			titles = append(titles, t)
		}
		words = append(words, inWords(sheet))
	}
	x.text("dc:identifier", strings.Join(ids, ", "))
	x.language("dc:title", strings.Join(titles, "; "))
	x.language("dc:description", strings.Join(words, "\n"))
	body := xmpHead + x.out.String() + xmpFoot
	return []byte(body + ownMark + digest(body) + ownEnd)
}

const (
	xmpHead = "<?xpacket begin=\"\ufeff\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		"<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n" +
		" <rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n" +
		"  <rdf:Description rdf:about=\"\"\n" +
		"    xmlns:dc=\"http://purl.org/dc/elements/1.1/\"\n" +
		"    xmlns:exif=\"http://ns.adobe.com/exif/1.0/\"\n" +
		"    xmlns:exifEX=\"http://cipa.jp/exif/1.0/\"\n" +
		"    xmlns:tiff=\"http://ns.adobe.com/tiff/1.0/\"\n" +
		"    xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\">\n"
	xmpFoot = "  </rdf:Description>\n </rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"w\"?>\n"
	ownMark = "<!-- written by notchbook, sha256 of what stands above: "
	ownEnd  = " -->\n"
)

func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// OwnXMP tells a sidecar that was written by XMP and has not been changed since:
// only such a one may be replaced.
func OwnXMP(sidecar []byte) bool {
	text, rest, found := strings.Cut(string(sidecar), ownMark)
	return found && rest == digest(text)+ownEnd
}

// sidecar gathers properties.
type sidecar struct {
	season *record.Season
	out    bytes.Buffer
}

// text is a simple property, left out if there is nothing to say.
func (x *sidecar) text(name, value string) {
	if value != "" {
		fmt.Fprintf(&x.out, "   <%s>%s</%s>\n", name, escaped(value), name)
	}
}

// language is a property that may be given in several languages; notes are in
// one, which is not known.
func (x *sidecar) language(name, value string) {
	if value != "" {
		fmt.Fprintf(&x.out, "   <%s><rdf:Alt><rdf:li xml:lang=\"x-default\">%s</rdf:li></rdf:Alt></%s>\n", name, escaped(value), name)
	}
}

func escaped(s string) string {
	var b bytes.Buffer
	xml.EscapeText(&b, []byte(s)) // a buffer takes everything
	return b.String()
}

// exposure is what the one sheet of a scan was given.
func (x *sidecar) exposure(s *record.Sheet) {
	x.text("exif:DateTimeOriginal", s.Outing.ISO)
	x.text("exif:ExposureTime", timeRatio(s.Given))
	x.text("exif:FNumber", apertureRatio(s.Given))
	if s.EI.Known {
		x.text("exifEX:PhotographicSensitivity", strconv.Itoa(int(math.Round(s.EI.Value))))
	}
	x.text("exif:FocalLength", x.focalLength(s.Lens))
	x.text("exifEX:LensModel", s.Lens)
	x.text("tiff:Model", s.Camera)
}

var (
	plainStop  = pattern.Later(`^f/([0-9]+)(?:\.([0-9]))?$`)
	plainTime  = pattern.Later(`^1/([0-9]+)$`)
	millimetre = pattern.Later(`^([0-9]+) mm$`)
)

// doubted reports a value that the notes doubt: a sidecar has no way to say so, and
// leaves it out.
func doubted(value string) bool { return strings.HasSuffix(value, "?") }

// apertureRatio is the f-number as engraved, where it was set on an engraving;
// between two it is computed, to a tenth.
func apertureRatio(g record.Settings) string {
	if doubted(g.Aperture) {
		return ""
	}
	if m := plainStop().FindStringSubmatch(g.Aperture); m != nil {
		if m[2] == "" {
			return m[1] + "/1"
		}
		return strings.TrimPrefix(m[1]+m[2], "0") + "/10"
	}
	if !g.Av.Known {
		return ""
	}
	return tenths(math.Exp2(g.Av.Value / 2)) // Av = 2 log2 N
}

// timeRatio is the time by the clock, as engraved where it was.
func timeRatio(g record.Settings) string {
	if doubted(g.Time) {
		return ""
	}
	if m := plainTime().FindStringSubmatch(g.Time); m != nil {
		return "1/" + m[1]
	}
	switch t := g.Seconds.Value; {
	case !g.Seconds.Known || t <= 0:
		return ""
	case t < 0.3:
		return "1/" + strconv.Itoa(int(math.Round(1/t)))
	default:
		return tenths(t)
	}
}

func tenths(v float64) string {
	n := int(math.Round(v * 10))
	if n%10 == 0 {
		return strconv.Itoa(n/10) + "/1"
	}
	return strconv.Itoa(n) + "/10"
}

func (x *sidecar) focalLength(lens string) string {
	for _, item := range x.season.Kit {
		if item.Kind != "lens" || item.Name != lens {
			continue
		}
		for _, f := range item.Facts {
			if m := millimetre().FindStringSubmatch(f.Value); m != nil && f.Name == "focal length" {
				return m[1] + "/1"
			}
		}
	}
	return ""
}

func title(s *record.Sheet) string {
	switch {
	case s.Title != "":
		return s.Title
	case s.Scene != nil:
		return s.Scene.Title
	}
	return s.Outing.Title
}

// inWords is a sheet in one line.
func inWords(s *record.Sheet) string {
	words := []string{"Sheet " + s.Label}
	add := func(name, value string) {
		if value != "" {
			words = append(words, name+value)
		}
	}
	add("", s.Outing.Place)
	if s.Scene != nil {
		add("light: ", s.Scene.Light)
	}
	add("", s.Format)
	add("film ", s.Film)
	add("lens ", s.Lens)
	add("filter ", strings.Join(s.Filters, " + "))
	add("", s.Extension)
	add("", strings.Join(s.Movements, ", "))
	add("given ", strings.TrimSpace(s.Given.Aperture+" "+s.Given.Time))
	add("development ", s.Development)
	for _, d := range s.Developed {
		add("developed ", d.Text)
	}
	for _, r := range s.Remarks {
		add("", r)
	}
	return strings.Join(words, "; ")
}
