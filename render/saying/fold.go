package saying

import (
	"strconv"

	"notchbook/compile/record"
)

// Told is findings that say one thing: in their sentences nothing differs but what is marked
// in the line of each.
type Told struct {
	Message string // with … for what is marked, where that differs
	Of      []*record.Finding
}

// Fold puts findings together that say one thing, where the first of them stood. A record
// tells it once, with every place; who reads line by line reads the findings.
func Fold(all []*record.Finding) []Told {
	at := map[string]int{}
	var out []Told
	for _, f := range all {
		key := f.Code + string(f.Severity) + f.Form
		i, known := at[key]
		if !known || f.Form == "" {
			i = len(out)
			at[key] = i
			out = append(out, Told{Message: f.Said()})
		}
		if out[i].Of = append(out[i].Of, f); f.Said() != out[i].Message {
			out[i].Message = f.OfAll
		}
	}
	return out
}

// Notes are what stands below the sentence: where many say it, without what is written
// instead on one line.
func (t Told) Notes() []string {
	f := t.Of[0]
	if len(t.Of) > 1 && f.Fix != nil {
		return f.Notes[:len(f.Notes)-1]
	}
	return f.Notes
}

// Times says how often it is told: "29 times", "" where once.
func (t Told) Times() string {
	if len(t.Of) < 2 {
		return ""
	}
	return strconv.Itoa(len(t.Of)) + " times"
}
