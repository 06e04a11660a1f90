package bag

import (
	"crypto/md5"
	"crypto/sha256"
	"crypto/sha512"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// Every rule of RFC 8493 that can be broken, broken once, with the section that
// lays it down beside it. What is found is held against testdata/bags/check.py,
// which was written from the RFC alone and shares no code with this package.

// files is a bag by name.
type files map[string]string

func (f files) fs() fstest.MapFS {
	m := fstest.MapFS{"data": {Mode: 0o755 | os.ModeDir}}
	if f["no data"] != "" {
		delete(m, "data")
	}
	for name, text := range f {
		if name != "no data" {
			m[name] = &fstest.MapFile{Data: []byte(text), Mode: 0o644}
		}
	}
	return m
}

// whole is a bag of two files without a fault.
func whole() files {
	f := files{
		"bagit.txt":        "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n",
		"data/kiln.txt":    "a kiln\n",
		"data/a/wharf.txt": "a wharf\n",
	}
	f.list("data/kiln.txt", "data/a/wharf.txt")
	return f
}

// list writes the payload's manifests for these files.
func (f files) list(names ...string) {
	var short, long strings.Builder
	for _, name := range names {
		short.WriteString(line256(f, name))
		long.WriteString(line512(f, name))
	}
	f["manifest-sha256.txt"], f["manifest-sha512.txt"] = short.String(), long.String()
}

// tag lists the tag files.
func (f files) tag() {
	var short, long strings.Builder
	for _, name := range slices.Sorted(maps.Keys(f)) {
		if !strings.HasPrefix(name, "data/") && !strings.HasPrefix(name, "tagmanifest") {
			short.WriteString(line256(f, name))
			long.WriteString(line512(f, name))
		}
	}
	f["tagmanifest-sha256.txt"], f["tagmanifest-sha512.txt"] = short.String(), long.String()
}

func line256(f files, name string) string {
	return fmt.Sprintf("%x  %s\n", sha256.Sum256([]byte(f[name])), encodePath.Replace(name))
}

func line512(f files, name string) string {
	return fmt.Sprintf("%x  %s\n", sha512.Sum512([]byte(f[name])), encodePath.Replace(name))
}

func lineMD5(f files, name string) string {
	return fmt.Sprintf("%x  %s\n", md5.Sum([]byte(f[name])), name)
}

// old makes the bag declare an earlier version.
func (f files) old() {
	f["bagit.txt"] = "BagIt-Version: 0.97\nTag-File-Character-Encoding: UTF-8\n"
}

// replace replaces within a file, once.
func (f files) replace(name, from, to string) {
	f[name] = strings.Replace(f[name], from, to, 1)
}

var rules = []struct {
	section string
	title   string
	change  func(files)
	want    string // of the first problem that is no note; "" where there is none
}{
	{"2", "nothing is wrong", func(f files) {}, ""},
	{"2.1.2", "no payload folder", func(f files) {
		delete(f, "data/kiln.txt")
		delete(f, "data/a/wharf.txt")
		f.list()
		f["no data"] = "x"
	}, "missing: data is missing: the folder of the payload"},
	{"2", "other tag files, wherever they are", func(f files) { f["about/more.txt"] = "x"; f["readme"] = "y" }, ""},

	{"2.1.1", "no declaration", func(f files) { delete(f, "bagit.txt") }, "missing: bagit.txt is missing: without its declaration this is no bag"},
	{"2.1.1", "three lines", func(f files) { f["bagit.txt"] += "x: y\n" }, "error: bagit.txt has not two lines but 3"},
	{"2.1.1", "one line", func(f files) { f["bagit.txt"] = "BagIt-Version: 1.0\n" }, "error: bagit.txt has not two lines but 1"},
	{"2.1.1", "the lines in the other order", func(f files) { f["bagit.txt"] = "Tag-File-Character-Encoding: UTF-8\nBagIt-Version: 1.0\n" },
		"error: bagit.txt:1 does not read BagIt-Version: and a value"},
	{"2.1.1", "a version to come", func(f files) { f.replace("bagit.txt", "1.0", "2.0") }, "error: bagit.txt:1 declares the version 2.0, which is not known"},
	{"2.1.1", "a byte order mark", func(f files) { f["bagit.txt"] = "\ufeff" + f["bagit.txt"] }, "error: bagit.txt:1 begins with a byte order mark"},
	{"2.1.1", "blanks before the colon", func(f files) { f.replace("bagit.txt", "Version:", "Version :") }, "error: bagit.txt:1 has blanks where none belong"},
	{"2.1.1", "the same in an older bag", func(f files) { f.old(); f.replace("bagit.txt", "Version:", "Version :") }, "warning: bagit.txt:1 has blanks where none belong"},
	{"2.1.1", "no value", func(f files) { f["bagit.txt"] = "BagIt-Version: 1.0\nTag-File-Character-Encoding:\n" },
		"error: bagit.txt:2 does not read Tag-File-Character-Encoding: and a value"},
	{"4.1", "the label as the RFC's own examples have it", func(f files) { f.replace("bagit.txt", "BagIt-Version", "BagIt-version") }, ""},
	{"2.1.1", "an encoding of the registry", func(f files) {
		f.replace("bagit.txt", "UTF-8", "ISO-8859-1")
		f["bag-info.txt"] = "Contact-Name: Z\xfcrn\n"
	}, "warning: bagit.txt:2 declares another encoding than UTF-8"},
	{"2.1.1", "an encoding of nobody", func(f files) { f.replace("bagit.txt", "UTF-8", "KILN-7") }, "error: bagit.txt:2 declares the encoding KILN-7, which is not known"},

	{"2.1.3", "no manifest", func(f files) { delete(f, "manifest-sha256.txt"); delete(f, "manifest-sha512.txt") },
		"missing: manifest-sha512.txt or another list of the payload is missing"},
	{"2.1.3", "one manifest is enough", func(f files) { delete(f, "manifest-sha256.txt") }, ""},
	{"2.1.3", "capitals in the digest", func(f files) {
		digest := f["manifest-sha256.txt"][:64]
		f.replace("manifest-sha256.txt", digest, strings.ToUpper(digest))
	}, ""},
	{"2.1.3", "one blank, or a tab", func(f files) {
		f.replace("manifest-sha256.txt", "  ", " ")
		f.replace("manifest-sha512.txt", "  ", "\t")
	}, ""},
	{"2.1.3", "no blank", func(f files) { f.replace("manifest-sha256.txt", "  ", "") }, "error: manifest-sha256.txt:1 is no checksum with a path behind it"},
	{"2.1.3", "a damaged digest", func(f files) { f["manifest-sha256.txt"] = f["manifest-sha256.txt"][1:] }, "error: manifest-sha256.txt:1 has no checksum of sha256"},
	{"2.1.3", "a digest that is none", func(f files) { f["manifest-sha256.txt"] = "g" + f["manifest-sha256.txt"][1:] },
		"error: manifest-sha256.txt:1 has no checksum of sha256"},
	{"2.1.3", "an empty line", func(f files) { f["manifest-sha256.txt"] += "\n" }, "error: manifest-sha256.txt:3 is empty"},
	{"2.1.3", "a file twice", func(f files) { f["manifest-sha256.txt"] += line256(f, "data/kiln.txt") },
		"error: manifest-sha256.txt:3 lists data/kiln.txt, which line 1 lists already"},
	{"2.1.3", "a file twice in an older bag", func(f files) { f.old(); f["manifest-sha256.txt"] += line256(f, "data/kiln.txt") },
		"warning: manifest-sha256.txt:3 lists data/kiln.txt, which line 1 lists already"},
	{"2.1.3", "a tag file in the payload's list", func(f files) { f["manifest-sha256.txt"] += line256(f, "bagit.txt") },
		"error: manifest-sha256.txt:3 names bagit.txt, which is not in the payload"},
	{"2.1.3", "a folder", func(f files) { f["manifest-sha256.txt"] += strings.Repeat("0", 64) + "  data/a\n" }, "error: manifest-sha256.txt:3 names the folder data/a"},
	{"2.1.3", "a line feed, encoded", func(f files) { f["data/a\nb"] = "x"; f.list("data/kiln.txt", "data/a/wharf.txt", "data/a\nb") }, ""},
	{"2.1.3", "a carriage return, encoded in small letters", func(f files) {
		f["data/a\rb"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/a\rb")
		f.replace("manifest-sha256.txt", "%0D", "%0d")
	}, ""},
	{"2.1.3", "a line feed as it is", func(f files) {
		f["data/a\nb"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/a\nb")
		f.replace("manifest-sha256.txt", "%0A", "\n")
	}, "error: manifest-sha256.txt:3 names the folder data/a"},
	{"2.1.3", "a percent sign, encoded", func(f files) { f["data/50%0A"] = "x"; f.list("data/kiln.txt", "data/a/wharf.txt", "data/50%0A") }, ""},
	{"2.1.3", "a percent sign as it is", func(f files) {
		f["data/50%"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/50%")
		f.replace("manifest-sha256.txt", "%25", "%")
	}, "error: manifest-sha256.txt:3 has a percent sign in its path that is not encoded as %25"},
	{"2.1.3", "a percent sign as it is, in an older bag", func(f files) {
		f.old()
		f["data/50%0A"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/50%0A")
		f.replace("manifest-sha256.txt", "%250A", "%0A")
	}, ""},
	{"2.1.3", "a blank encoded that need not be", func(f files) {
		f["data/a b"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/a b")
		f.replace("manifest-sha256.txt", "a b", "a%20b")
	}, "error: manifest-sha256.txt:3 has a percent sign in its path that is not encoded as %25"},
	{"2.1.3", "blanks and strange letters", func(f files) {
		f["data/ Köhler 1⁄15 "] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/ Köhler 1⁄15 ")
	}, ""},
	{"2.1.3", "a path in a roundabout way", func(f files) { f.replace("manifest-sha256.txt", "data/kiln", "./data//kiln") },
		"warning: manifest-sha256.txt:1 names ./data//kiln.txt and means data/kiln.txt"},

	{"2.2.1", "tag manifests", func(f files) { f.tag() }, ""},
	{"2.2.1", "a list that is not in the list of tag files", func(f files) {
		f.tag()
		f["tagmanifest-sha256.txt"] = line256(f, "bagit.txt") + line256(f, "manifest-sha256.txt")
	}, "error: tagmanifest-sha256.txt does not list manifest-sha512.txt"},
	{"2.2.1", "a tag file that is not in it", func(f files) { f.tag(); f["more.txt"] = "x" }, "warning: tagmanifest-sha256.txt does not list more.txt"},
	{"2.2.1", "a list of tag files in another", func(f files) { f.tag(); f["tagmanifest-sha256.txt"] += line256(f, "tagmanifest-sha512.txt") },
		"error: tagmanifest-sha256.txt:4 names tagmanifest-sha512.txt, a list of tag files"},
	{"2.2.1", "payload in the list of tag files", func(f files) { f.tag(); f["tagmanifest-sha256.txt"] += line256(f, "data/kiln.txt") },
		"error: tagmanifest-sha256.txt:4 names data/kiln.txt, which is in the payload"},
	{"2.2.1", "an algorithm of its own", func(f files) {
		for _, name := range []string{"bagit.txt", "manifest-sha256.txt", "manifest-sha512.txt"} {
			f["tagmanifest-md5.txt"] += lineMD5(f, name)
		}
	}, "warning: tagmanifest-md5.txt has an algorithm that no list of the payload has"},
	{"3", "a list that changed", func(f files) { f.tag(); f.replace("manifest-sha256.txt", "  ", " ") },
		"changed: manifest-sha256.txt has other bytes than those listed in tagmanifest-sha256.txt and tagmanifest-sha512.txt"},

	{"2.2.2", "elements, repeated, in any order", func(f files) { f["bag-info.txt"] = "B: 1\r\nA: 2\r\nB: 3: 4\r\n" }, ""},
	{"2.2.2", "a value that goes on", func(f files) { f["bag-info.txt"] = "A: one\n  two\n\tthree\n" }, ""},
	{"2.2.2", "goes on with nothing", func(f files) { f["bag-info.txt"] = "  two\n" }, "error: bag-info.txt:1 goes on with nothing"},
	{"2.2.2", "no colon", func(f files) { f["bag-info.txt"] = "A one\n" }, "error: bag-info.txt:1 has no colon"},
	{"2.2.2", "no label", func(f files) { f["bag-info.txt"] = ": one\n" }, "error: bag-info.txt:1 has no label before its colon"},
	{"2.2.2", "a blank before the colon", func(f files) { f["bag-info.txt"] = "A : one\n" }, "error: bag-info.txt:1 has a blank before its colon"},
	{"2.2.2", "no blank behind it", func(f files) { f["bag-info.txt"] = "A:one\n" }, "error: bag-info.txt:1 has no blank behind its colon"},
	{"2.2.2", "blanks about the colon, in an older bag", func(f files) { f.old(); f["bag-info.txt"] = "A  :   one\nB:two\n" }, ""},
	{"2.2.2", "the payload's size", func(f files) { f["bag-info.txt"] = "payload-oxum: 15.2\n" }, ""},
	{"2.2.2", "another size", func(f files) { f["bag-info.txt"] = "Payload-Oxum: 16.2\n" },
		"changed: bag-info.txt counts 16 bytes in 2 files of payload; there are 15 in 2"},
	{"2.2.2", "another number of files", func(f files) { f["bag-info.txt"] = "Payload-Oxum: 15.3\n" },
		"changed: bag-info.txt counts 15 bytes in 3 files of payload; there are 15 in 2"},
	{"2.2.2", "no size", func(f files) { f["bag-info.txt"] = "Payload-Oxum: 15 bytes\n" },
		"error: bag-info.txt has a Payload-Oxum that is not two numbers with a dot between"},
	{"2.2.2", "the size twice", func(f files) { f["bag-info.txt"] = "Payload-Oxum: 15.2\nPayload-Oxum: 15.2\n" }, "error: bag-info.txt has more than one Payload-Oxum"},
	{"2.2.2", "a date as people write it", func(f files) { f["bag-info.txt"] = "Bagging-Date: 7 Nov 2026\n" },
		"warning: bag-info.txt has a Bagging-Date that is not written as 2026-11-07"},
	{"2.2.2", "two dates", func(f files) { f["bag-info.txt"] = "Bagging-Date: 2026-11-07\nBagging-Date: 2026-11-08\n" },
		"warning: bag-info.txt has more than one Bagging-Date"},

	{"2.2.3", "a file to be fetched that is there", func(f files) { f["fetch.txt"] = "https://example.org/kiln.txt 7 data/kiln.txt\n" }, ""},
	{"2.2.3", "a file to be fetched", func(f files) {
		f["fetch.txt"] = "https://example.org/kiln.txt\t-\tdata/kiln.txt\n"
		delete(f, "data/kiln.txt")
	}, "missing: data/kiln.txt is not there yet: fetch.txt says from where to fetch it"},
	{"2.2.3", "another length", func(f files) { f["fetch.txt"] = "https://example.org/kiln.txt 8 data/kiln.txt\n" },
		"warning: fetch.txt:1 says that data/kiln.txt has 8 bytes; it has 7"},
	{"2.2.3", "a file of no list", func(f files) { f["fetch.txt"] = "https://example.org/x 8 data/x\n" },
		"error: fetch.txt:1 names data/x, which manifest-sha256.txt does not list"},
	{"2.2.3", "a tag file", func(f files) { f["fetch.txt"] = "https://example.org/x 8 bagit.txt\n" }, "error: fetch.txt:1 names bagit.txt, which is not in the payload"},
	{"2.2.3", "no address", func(f files) { f["fetch.txt"] = "example.org/kiln.txt 7 data/kiln.txt\n" }, "error: fetch.txt:1 has no absolute address"},
	{"2.2.3", "no length", func(f files) { f["fetch.txt"] = "https://example.org/kiln.txt 7b data/kiln.txt\n" }, "error: fetch.txt:1 has a length that is no number"},
	{"2.2.3", "two values", func(f files) { f["fetch.txt"] = "https://example.org/kiln.txt data/kiln.txt\n" },
		"error: fetch.txt:1 is not an address, a length and a path"},

	{"2.3", "lines ended as elsewhere", func(f files) {
		f["bagit.txt"] = strings.ReplaceAll(f["bagit.txt"], "\n", "\r\n")
		f["manifest-sha256.txt"] = strings.ReplaceAll(f["manifest-sha256.txt"], "\n", "\r")
	}, ""},
	{"2.3", "a last line that is not ended", func(f files) { f["manifest-sha256.txt"] = strings.TrimSuffix(f["manifest-sha256.txt"], "\n") }, ""},
	{"2.3", "a byte order mark", func(f files) { f["manifest-sha256.txt"] = "\ufeff" + f["manifest-sha256.txt"] },
		"error: manifest-sha256.txt:1 begins with a byte order mark"},
	{"2.3", "another encoding than declared", func(f files) { f["bag-info.txt"] = "Contact-Name: Z\xfcrn\n" }, "error: bag-info.txt is not written in UTF-8"},
	{"2.1.1", "sixteen bits", func(f files) {
		f.replace("bagit.txt", "UTF-8", "UTF-16")
		for _, name := range []string{"manifest-sha256.txt", "manifest-sha512.txt"} {
			text := "\xfe\xff"
			for _, c := range f[name] {
				text += string([]byte{byte(c >> 8), byte(c)})
			}
			f[name] = text
		}
	}, "warning: bagit.txt:2 declares another encoding than UTF-8"},

	{"2.4", "MD5", func(f files) {
		delete(f, "manifest-sha256.txt")
		delete(f, "manifest-sha512.txt")
		f["manifest-md5.txt"] = lineMD5(f, "data/kiln.txt") + lineMD5(f, "data/a/wharf.txt")
	}, ""},
	{"2.4", "a name that is not normalized", func(f files) {
		f["manifest-SHA-256.txt"] = f["manifest-sha256.txt"]
		delete(f, "manifest-sha256.txt")
	}, "error: manifest-SHA-256.txt does not name its algorithm in lower case letters and digits alone"},
	{"2.4", "one algorithm more, of nobody", func(f files) { f["manifest-kiln7.txt"] = "00  data/kiln.txt\n00  data/a/wharf.txt\n" },
		"warning: manifest-kiln7.txt was not checked: its algorithm is not known here"},
	{"2.4", "no other algorithm", func(f files) {
		delete(f, "manifest-sha256.txt")
		delete(f, "manifest-sha512.txt")
		f["manifest-kiln7.txt"] = "00  data/kiln.txt\n00  data/a/wharf.txt\n"
	}, "error: manifest-kiln7.txt cannot be checked: its algorithm is not known here"},

	{"3", "a byte that flipped", func(f files) { f["data/kiln.txt"] = "a kilo\n" },
		"changed: data/kiln.txt has other bytes than those listed in manifest-sha256.txt and manifest-sha512.txt"},
	{"3", "a digest that flipped", func(f files) {
		old := f["manifest-sha256.txt"]
		f["manifest-sha256.txt"] = strings.Map(func(c rune) rune { return '0' }, old[:1]) + "0" + old[2:]
	}, "changed: data/kiln.txt agrees with manifest-sha512.txt and not with manifest-sha256.txt"},
	{"3", "a file that is missing", func(f files) { delete(f, "data/kiln.txt") },
		"missing: data/kiln.txt is missing, listed in manifest-sha256.txt and manifest-sha512.txt"},
	{"3", "a file of another name", func(f files) { f["data/oven.txt"] = f["data/kiln.txt"]; delete(f, "data/kiln.txt") },
		"missing: data/kiln.txt is missing, listed in manifest-sha256.txt and manifest-sha512.txt; data/oven.txt has its bytes"},
	{"3", "two files that changed places", func(f files) { f["data/kiln.txt"], f["data/a/wharf.txt"] = f["data/a/wharf.txt"], f["data/kiln.txt"] },
		"changed: data/a/wharf.txt has other bytes than those listed in manifest-sha256.txt and manifest-sha512.txt: it has those of data/kiln.txt, and that one its own: the two have changed places"},
	{"3", "a file copied over another", func(f files) { f["data/kiln.txt"] = f["data/a/wharf.txt"] },
		"changed: data/kiln.txt has other bytes than those listed in manifest-sha256.txt and manifest-sha512.txt: it has those of data/a/wharf.txt"},
	{"3", "a file that is extra", func(f files) { f["data/x"] = "x" }, "extra: data/x is in no list"},
	{"3", "a file in one list of two", func(f files) { f["data/x"] = "x"; f["manifest-sha256.txt"] += line256(f, "data/x") },
		"extra: data/x is not listed in manifest-sha512.txt"},
	{"3", "a file in one list of two, in an older bag", func(f files) { f.old(); f["data/x"] = "x"; f["manifest-sha256.txt"] += line256(f, "data/x") }, ""},
	{"3", "a tag file that is missing", func(f files) { f["more.txt"] = "x"; f.tag(); delete(f, "more.txt") },
		"missing: more.txt is missing, listed in tagmanifest-sha256.txt and tagmanifest-sha512.txt"},
	{"3", "a tag file that changed", func(f files) { f["more.txt"] = "x"; f.tag(); f["more.txt"] = "y" },
		"changed: more.txt has other bytes than those listed in tagmanifest-sha256.txt and tagmanifest-sha512.txt"},

	{"5.1", "up and out", func(f files) { f["manifest-sha256.txt"] += strings.Repeat("0", 64) + "  data/../../etc/passwd\n" },
		"error: manifest-sha256.txt:3 names data/../../etc/passwd, which climbs out of its folder with .."},
	{"5.1", "up and in again", func(f files) { f.replace("manifest-sha256.txt", "data/kiln", "data/a/../kiln") },
		"error: manifest-sha256.txt:1 names data/a/../kiln.txt, which climbs out of its folder with .."},
	{"5.1", "the disk's root", func(f files) { f.tag(); f["tagmanifest-sha256.txt"] += strings.Repeat("0", 64) + "  /etc/passwd\n" },
		"error: tagmanifest-sha256.txt:4 names /etc/passwd, which begins at the root of a disk"},
	{"5.1", "a home folder", func(f files) { f.tag(); f["tagmanifest-sha256.txt"] += strings.Repeat("0", 64) + "  ~root/x\n" },
		"error: tagmanifest-sha256.txt:4 names ~root/x, which begins with ~, which may be read as a home folder"},
	{"5.1", "a drive", func(f files) { f.tag(); f["tagmanifest-sha256.txt"] += strings.Repeat("0", 64) + "  C:/x\n" },
		"error: tagmanifest-sha256.txt:4 names C:/x, which begins with the letter of a drive"},
	{"5.1", "a namespace of Windows", func(f files) { f.tag(); f["tagmanifest-sha256.txt"] += strings.Repeat("0", 64) + `  \\?\C:\x` + "\n" },
		`error: tagmanifest-sha256.txt:4 names "\\\\?\\C:\\x", which begins at the root of a disk`},
	{"5.1", "up and out by backslashes", func(f files) { f["manifest-sha256.txt"] += strings.Repeat("0", 64) + `  data\..\..\x` + "\n" },
		`error: manifest-sha256.txt:3 names "data\\..\\..\\x", which climbs out of its folder with ..`},
	{"5.1", "out by fetching", func(f files) { f["fetch.txt"] = "https://example.org/x 1 data/../../x\n" },
		"error: fetch.txt:1 names data/../../x, which climbs out of its folder with .."},
	{"5.1", "out by an encoded line end", func(f files) { f["manifest-sha256.txt"] += strings.Repeat("0", 64) + "  ../%0Ax\n" },
		`error: manifest-sha256.txt:3 names "../\nx", which climbs out of its folder with ..`},

	{"6.1.1.3", "capitals alone", func(f files) {
		f["data/KILN.txt"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/KILN.txt")
	}, "warning: data/kiln.txt differs from data/KILN.txt only in capitals"},
	{"3", "listed in other capitals", func(f files) { f.replace("manifest-sha256.txt", "kiln", "Kiln") },
		"missing: data/Kiln.txt is missing, listed in manifest-sha256.txt; data/kiln.txt differs from it in capitals"},
	{"6.1.1.3", "letters composed otherwise", func(f files) {
		f["data/Nu\u0301n\u0303ez"] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/Nu\u0301n\u0303ez")
		f.replace("manifest-sha256.txt", "Nu\u0301n\u0303ez", "Núñez")
		f.replace("manifest-sha512.txt", "Nu\u0301n\u0303ez", "Núñez")
	}, "warning: manifest-sha256.txt:3 composes the letters of data/Núñez otherwise than the file's name does"},
	{"6.1.1.3", "two files that look the same", func(f files) {
		f["data/é"], f["data/e\u0301"] = "x", "y"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/é", "data/e\u0301")
	}, "warning: data/é differs from data/e\u0301 only in how its letters are composed"},
	{"2.1.3", "two lists that differ in capitals", func(f files) { f["Manifest-sha256.txt"] = f["manifest-sha256.txt"] },
		"error: Manifest-sha256.txt is not named manifest- or tagmanifest- in lower case"},
	{"6.1.3", "the asterisk of a checksum tool", func(f files) { f.replace("manifest-sha256.txt", "  ", " *") },
		"warning: manifest-sha256.txt:1 has the asterisk of a checksum tool before its path, which a strict check refuses"},
	{"6.1.3", "the backslash of a checksum tool", func(f files) {
		f[`data/a\b`] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", `data/a\b`)
		f["manifest-sha256.txt"] = line256(f, "data/kiln.txt") + line256(f, "data/a/wharf.txt") + `\` + strings.Replace(line256(f, `data/a\b`), `\`, `\\`, 1)
	}, "warning: manifest-sha256.txt:3 has the backslash of a checksum tool before its checksum, which a strict check refuses"},
}

func TestRules(t *testing.T) {
	for _, r := range rules {
		t.Run(r.section+" "+r.title, func(t *testing.T) {
			f := whole()
			r.change(f)
			report, err := Verify(f.fs(), Options{})
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			for _, p := range report.Problems {
				if p.Severity != Note && got == "" {
					got = p.String()
				}
			}
			want := r.want
			if want != "" {
				want += " (RFC 8493, "
			}
			if !strings.HasPrefix(got, want) || r.want == "" && got != "" {
				t.Errorf("found %q, want %q\n%v", got, want, report.Problems)
			}
			if got != "" && !strings.HasSuffix(got, " "+r.section+")") {
				t.Errorf("%q is not of section %s", got, r.section)
			}
		})
	}
}

// Names that some system cannot hold are notes and no fault (RFC 8493, section
// 6.1.2).
func TestNamesOfWindowsAreNotes(t *testing.T) {
	for _, name := range []string{"a:b", "a?b", "a*b", `a"b`, "a<b", "a|b", "CON", "con.txt", "Lpt9.x.y", "nul", "a.", "a ", strings.Repeat("x", 252)} {
		f := whole()
		f["data/"+name] = "x"
		f.list("data/kiln.txt", "data/a/wharf.txt", "data/"+name)
		report, err := Verify(f.fs(), Options{})
		if err != nil || !report.Valid() || !slices.ContainsFunc(report.Problems, func(p Problem) bool { return p.Section == "6.1.2" && p.File == "data/"+name }) {
			t.Errorf("%q: %v %v", name, err, report.Problems)
		}
	}
	for _, name := range []string{"console", "com10", ".con", "nulls.txt", strings.Repeat("x", 250)} {
		if why := troublesOnWindows("data/" + name); why != "" {
			t.Errorf("%q %s", name, why)
		}
	}
}

// checkedElsewhere asks the checker that was written from the RFC alone which of
// these bags are valid.
func checkedElsewhere(t *testing.T, bags []files) []string {
	t.Helper()
	python, err := exec.LookPath("python3")
	if err != nil && os.Getenv("CI") == "true" {
		t.Fatal("python3 is not installed: bags are not checked by another hand")
	}
	if err != nil {
		t.Skip("python3 is not installed: bags are not checked by another hand")
	}
	args := []string{"../../testdata/bags/check.py"}
	for _, f := range bags {
		dir := t.TempDir()
		for name, file := range f.fs() {
			full := filepath.Join(dir, filepath.FromSlash(name))
			if file.Mode.IsDir() {
				err = os.MkdirAll(full, 0o755)
			} else if err = os.MkdirAll(filepath.Dir(full), 0o755); err == nil {
				err = os.WriteFile(full, file.Data, 0o644)
			}
			if err != nil {
				t.Skip("this disk does not hold such names: ", err)
			}
		}
		args = append(args, dir)
	}
	out, err := exec.Command(python, args...).Output()
	if err != nil {
		t.Fatalf("check.py: %v\n%s", err, out)
	}
	return strings.Split(strings.TrimSpace(string(out)), "\n")
}

// What may be left out is no fault; but where it is, nothing tells whether it was there.
func TestWhatNothingTells(t *testing.T) {
	for want, change := range map[string]func(f files){
		"note: tagmanifest-sha256.txt is not there, though tagmanifest-sha512.txt is: nothing tells whether it was (RFC 8493, 2.2.1)": func(f files) {
			f.tag()
			delete(f, "tagmanifest-sha256.txt")
		},
		"note: tagmanifest-sha256.txt is not there, nor any other list of the tag files: nothing tells whether the lists themselves have changed (RFC 8493, 2.2.1)": func(files) {},
		"note: bag-info.txt is not there: it may be left out, and nothing tells whether it was (RFC 8493, 2.2.2)":                                                   func(files) {},
		"": func(f files) { f.tag() },
	} {
		f := whole()
		change(f)
		report, err := Verify(f.fs(), Options{})
		if err != nil || !report.Valid() {
			t.Fatal(err, report.Problems)
		}
		if said := slices.ContainsFunc(report.Problems, func(p Problem) bool { return p.String() == want }); said != (want != "") || want == "" && len(report.Problems) > 0 {
			t.Errorf("want %q, found %v", want, report.Problems)
		}
	}
}

func TestAnotherHandAgrees(t *testing.T) {
	var bags []files
	for _, r := range rules {
		f := whole()
		r.change(f)
		bags = append(bags, f)
	}
	for i, said := range checkedElsewhere(t, bags) {
		report, err := Verify(bags[i].fs(), Options{})
		if err != nil {
			t.Fatal(err)
		}
		if valid := said == "valid"; valid != report.Valid() {
			t.Errorf("%s %s: the other says %q, here it is %v", rules[i].section, rules[i].title, said, report.Problems)
		}
	}
}
