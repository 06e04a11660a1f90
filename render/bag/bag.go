// Package bag writes and checks bags: folders that carry beside their files the
// lists by which every one of them can be checked, as RFC 8493 (BagIt 1.0) lays
// them down.
//
//	bagit.txt                 the declaration: version and encoding
//	bag-info.txt              what is in it, for people
//	manifest-sha256.txt       the digest of every file under data/
//	tagmanifest-sha256.txt    the digest of every other file
//	data/                     the payload
//
// A [Writer] streams files into a bag with both of its digests; [Verify] checks
// any bag, whoever made it. Nothing here knows what the files mean.
package bag

import (
	"crypto/md5"
	"crypto/sha1"
	"crypto/sha256"
	"crypto/sha3"
	"crypto/sha512"
	"hash"
	"io"
	"strings"
)

// The files that the format itself names.
const (
	declarationName = "bagit.txt"
	infoName        = "bag-info.txt"
	fetchName       = "fetch.txt"
	payload         = "data/"
)

// Folder is where a bag is written: names are relative, with slashes.
type Folder interface {
	Create(name string) (io.WriteCloser, error)
}

// Element is one line of bag-info.txt: a label and its value.
type Element struct{ Label, Value string }

// algorithms are those of RFC 8493, section 2.4, and those of its registry that
// the standard library has, by their normalized names.
var algorithms = map[string]func() hash.Hash{
	"md5":     md5.New,
	"sha1":    sha1.New,
	"sha224":  sha256.New224,
	"sha256":  sha256.New,
	"sha384":  sha512.New384,
	"sha512":  sha512.New,
	"sha3224": func() hash.Hash { return sha3.New224() },
	"sha3256": func() hash.Hash { return sha3.New256() },
	"sha3384": func() hash.Hash { return sha3.New384() },
	"sha3512": func() hash.Hash { return sha3.New512() },
}

// normalized is an algorithm's name as it stands in a manifest's: in lower case,
// without what is neither letter nor digit (RFC 8493, section 2.4).
func normalized(name string) string {
	return strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' {
			return c
		}
		return -1
	}, strings.ToLower(name))
}

// A path in a manifest has its line ends and percent signs encoded, and nothing
// else (RFC 8493, section 2.1.3).
var encodePath = strings.NewReplacer("%", "%25", "\n", "%0A", "\r", "%0D")

var decodePath = strings.NewReplacer("%25", "%", "%0A", "\n", "%0a", "\n", "%0D", "\r", "%0d", "\r")
