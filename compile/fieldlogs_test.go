package compile_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// Field logs in different hands, each with a key that was worked out without
// knowledge of this program (testdata/fieldlogs). What counts: mistakes found,
// right sheets blamed, and sheets of which nobody can know.

type logScore struct {
	sheets, off, found, blamed, right, guessed, unknown int
	misses                                              []string
}

func TestFieldLogs(t *testing.T) {
	folders, err := filepath.Glob("../testdata/fieldlogs/*/key.csv")
	if err != nil || len(folders) < 12 {
		t.Fatalf("%d field logs, %v", len(folders), err)
	}
	var all logScore
	for _, key := range folders {
		folder := filepath.Dir(key)
		s := scoreLog(t, folder)
		t.Logf("%-28s %3d sheets, %2d off, %2d found; %3d right, %d blamed; %d unknown, %d guessed", filepath.Base(folder),
			s.sheets, s.off, s.found, s.right, s.blamed, s.unknown, s.guessed)
		for _, m := range s.misses {
			t.Logf("    %s", m)
		}
		all.sheets += s.sheets
		all.off += s.off
		all.found += s.found
		all.blamed += s.blamed
		all.right += s.right
		all.unknown += s.unknown
		all.guessed += s.guessed
	}
	t.Logf("%d sheets; %d of %d mistakes found; %d of %d right sheets blamed; %d of %d unknown ones guessed",
		all.sheets, all.found, all.off, all.blamed, all.right, all.guessed, all.unknown)
	if all.blamed > 0 {
		t.Errorf("%d right sheets are blamed", all.blamed)
	}
	if 100*all.found < 95*all.off {
		t.Errorf("only %d of %d mistakes are found", all.found, all.off)
	}
	if all.guessed > 0 {
		t.Errorf("%d sheets are judged that nobody can judge", all.guessed)
	}
}

func scoreLog(t *testing.T, folder string) logScore {
	t.Helper()
	season, _ := compileFolder(t, folder)
	sheets := map[string]*record.Sheet{}
	for _, s := range season.Sheets {
		sheets[normal(s.ID)] = s
		if s.Number != "" {
			sheets[normal(s.Number)] = s
		}
	}
	file, err := os.Open(filepath.Join(folder, "key.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var score logScore
	for _, row := range rows[1:] {
		score.add(row, sheets[normal(row[0])])
	}
	return score
}

func normal(id string) string { return strings.ToLower(strings.ReplaceAll(id, "#", "")) }

func (s *logScore) add(row []string, sheet *record.Sheet) {
	s.sheets++
	state, got := row[1], "not in the record"
	if sheet != nil {
		got = string(sheet.State)
	}
	miss := func(format string, args ...any) {
		s.misses = append(s.misses, row[0]+": "+fmt.Sprintf(format, args...)+"; key: "+strings.Join(row[1:], ", "))
	}
	switch state {
	case "right":
		s.right++
		if got == "off" || got == "no-image" {
			s.blamed++
			miss("blamed: off by %+.2f", sheet.Difference.Value)
		} else if got != state {
			miss("%s: %v", got, needs(sheet))
		}
	case "off", "no-image":
		s.off++
		if got == state {
			s.found++
		} else {
			miss("%s: %v", got, needs(sheet))
		}
	case "unchecked":
		s.unknown++
		if got == "off" || got == "no-image" {
			s.guessed++
			miss("judged: off by %+.2f", sheet.Difference.Value)
		}
	default:
		if got != state {
			miss("%s", got)
		}
	}
}

func needs(s *record.Sheet) []string {
	if s == nil {
		return nil
	}
	return slices.Clone(s.Needs)
}
