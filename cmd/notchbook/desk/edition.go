package desk

import (
	"bytes"
	"encoding/json"
	"io"
	"slices"
	"sync"
)

// Edition is the record as it was made once: its pages, and the scans that it
// names and that are there. It is the folder that the record is written into.
type Edition struct {
	pages map[string][]byte
	scans map[string]bool
}

// NewEdition is an empty one. Only the scans named will be handed out.
func NewEdition() *Edition {
	return &Edition{pages: map[string][]byte{}, scans: map[string]bool{}}
}

// Show lets a scan be handed out, by its path within the season's folder.
func (e *Edition) Show(scan string) { e.scans[scan] = true }

// Create takes a file of the record.
func (e *Edition) Create(name string) (io.WriteCloser, error) {
	return &file{edition: e, name: name}, nil
}

type file struct {
	bytes.Buffer
	edition *Edition
	name    string
}

func (f *file) Close() error {
	f.edition.pages[f.name] = f.Bytes()
	return nil
}

// First is the page with which one begins: the findings, if there are any.
func (e *Edition) First() string {
	if e.pages["findings.html"] != nil {
		return "findings.html"
	}
	return "index.html"
}

// differs lists the files in which two editions differ. What is the same, such as
// most large pictures, lies in the memory once.
func (e *Edition) differs(before *Edition) []string {
	names := []string{}
	for name, b := range e.pages {
		if old := before.pages[name]; bytes.Equal(b, old) {
			e.pages[name] = old
		} else {
			names = append(names, name)
		}
	}
	for name := range before.pages {
		if e.pages[name] == nil {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}

// stand is where the latest edition lies, and who stands before it.
type stand struct {
	mu     sync.Mutex
	latest *Edition
	ears   map[chan string]bool
}

func (s *stand) edition() *Edition {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.latest
}

// put lays out an edition and tells everyone in what it differs. Who has not
// listened to the last news yet hears both at once.
func (s *stand) put(next *Edition) {
	s.mu.Lock()
	defer s.mu.Unlock()
	before := s.latest
	s.latest = next
	if before == nil {
		return
	}
	changed := next.differs(before)
	if len(changed) == 0 {
		return
	}
	for ear := range s.ears {
		names := changed
		select {
		case unheard := <-ear:
			var more []string
			if json.Unmarshal([]byte(unheard), &more) == nil {
				names = slices.Compact(slices.Sorted(slices.Values(append(more, changed...))))
			}
		default:
		}
		text, _ := json.Marshal(names) // strings always have a JSON
		ear <- string(text)
	}
}

func (s *stand) subscribe() (news <-chan string, leave func()) {
	ear := make(chan string, 1)
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.ears == nil {
		s.ears = map[chan string]bool{}
	}
	s.ears[ear] = true
	return ear, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.ears, ear)
	}
}
