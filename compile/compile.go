// Package compile turns notebooks into the finished record: who is meant by
// each line, what each sheet needed, what it got, and what there is to say of
// the difference. Compile names its passes and does nothing else; each pass is
// one file that says at its top what it may assume and what it leaves true.
package compile

import (
	"notchbook/compile/record"
	"notchbook/lang"
	"notchbook/lang/diag"
	"notchbook/lang/source"
)

// World is what the compiler may ask of the world outside the notes.
type World struct {
	Title string                            // of the season, where the notes have none
	Read  func(name string) ([]byte, error) // a notebook, by its path in the season's folder
	Look  func(path string) Scan            // what is known of a scan file; nil: nothing is looked at
	Scans []string                          // all scan files there are, in order

	// Elsewhere tells of a scan's path that leads out of the season's folder
	// whether the writer lets scans be read there, and gives the path from the
	// season's folder on, with slashes. nil: nothing outside is read.
	Elsewhere func(path string) (string, bool)

	Celsius float64 // temperature to develop at; 0: the one that the kit declares first

	// Public leaves private remarks out: the record is that of the notebooks
	// without them, and nothing of it has seen them.
	Public bool
}

// Scan is what is known of a scan file.
type Scan struct {
	State         record.ScanState
	Why           string // for a file that cannot be read: in words
	Format        string
	Width, Height int // pixels, upright
	Depth         int // bits per channel
	Bytes         int64
	SHA256        string
}

// Compile reads the notebooks of the given names, and those that they use, and
// makes the record. There is always a record; what is wrong with the notes is
// in it and in the list, sorted by place.
func Compile(world World, names ...string) (*record.Season, diag.List) {
	return compiled(world, names).gather()
}

// compiled runs the passes up to the findings. What follows is for the record.
func compiled(world World, names []string) *season { return recompiled(world, names, nil) }

// recompiled does the same with what is remembered from the edition of the notes
// before.
func recompiled(world World, names []string, memory *memory) *season {
	s := &season{world: world, names: lang.NewLexicon(), room: &room{}}
	if memory != nil {
		s.names.Memory, s.room = &memory.lines, &memory.room
		s.room.vacate()
	}
	s.load(names)
	s.share()
	s.declare()
	s.resolve()
	s.assess()
	s.diagnose()
	s.check()
	return s
}

// memory is what one edition of the notes leaves to the next: lines as read, and
// the room in which its sheets stood.
type memory struct {
	lines lang.Memory
	room  room
}

// season is what the passes hand to one another.
type season struct {
	world World
	names *lang.Lexicon
	room  *room

	books    []*book         // load
	withheld map[string]bool // load; scans that a public record leaves out, by path
	kits     []*kit          // share; what is in them, declare
	outings  []*outing       // resolve
	sheets   []*sheet        // resolve; in the order logged
	scans    []*scanRef      // resolve
	sides    []*side         // resolve; what became of them, holders

	dated map[lang.Label]*sheet // resolve; what labels with a day before them mean

	curveFiles map[string][]byte // declare; as read, by path

	ofUnserved map[string]unserved // resolve; the days of sheets that a pattern further on would give a file, by its path

	dates      int                 // 2 where a day has a whole date, 1 where none has; 0 until asked for
	there      map[string]bool     // paths of scan files; nil until asked for
	unlogged   []unlogged          // resolve; negatives without an entry
	givenTwice []secondGift        // resolve; numbers that stand given to a second negative
	undeclared map[source.Span]int // check; where a filter that nobody knows is named, and the finding that says so
	found      []finding           // every pass adds
	late       []late              // load; what resolve adds to it
}

// finding is a diagnostic with the sheets that it is about.
type finding struct {
	diag.Diagnostic
	sheets []*sheet
	causes []string
}

// report adds a finding of a rule at its own severity.
func (s *season) report(code string, at source.Span, message string, sheets ...*sheet) *finding {
	rule := diag.Lookup(code)
	s.found = append(s.found, finding{
		Diagnostic: diag.Diagnostic{Code: code, Severity: rule.Severity, Span: at, Message: message},
		sheets:     sheets,
	})
	return &s.found[len(s.found)-1]
}

// note adds a line below a finding.
func (f *finding) note(text string, at ...source.Span) *finding {
	aside := diag.Aside{Text: text}
	if len(at) > 0 {
		aside.Span = at[0]
	}
	f.Notes = append(f.Notes, aside)
	return f
}
