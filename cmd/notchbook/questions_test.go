package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var updateQuestions = flag.Bool("update-questions", false, "write the answers in testdata/questions anew")

// What a photographer asks of a season: each file of testdata/questions holds the
// commands that answer one question of its README, and their whole answer.
func TestQuestionsAreAnswered(t *testing.T) {
	files, err := filepath.Glob("../../testdata/questions/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no questions", err)
	}
	folder := t.TempDir()
	copyNotes(t, filepath.Join(folder, "examples"), "../../examples")
	absolute := make([]string, len(files))
	for i, file := range files {
		if absolute[i], err = filepath.Abs(file); err != nil {
			t.Fatal(err)
		}
	}
	t.Chdir(folder)
	for _, file := range absolute {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) { answered(t, file) })
	}
}

func answered(t *testing.T, file string) {
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var got strings.Builder
	for line := range strings.Lines(string(want)) {
		if command, ok := strings.CutPrefix(line, "$ notchbook "); ok {
			got.WriteString(line)
			got.WriteString(answer(strings.TrimSpace(command)))
		}
	}
	if *updateQuestions {
		if err := os.WriteFile(file, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got.String() != string(want) {
		t.Errorf("the answer is now:\n%s", got.String())
	}
}

var words = regexp.MustCompile(`"[^"]*"|\S+`)

// answer is all that a command says, with its exit status where that is not 0.
func answer(command string) string {
	var args []string
	for _, word := range words.FindAllString(command, -1) {
		args = append(args, strings.Trim(word, `"`))
	}
	var out bytes.Buffer
	code := run(args, terminal{in: strings.NewReader(""), out: &out, err: &out})
	if code != 0 {
		fmt.Fprintf(&out, "exit status %d\n", code)
	}
	return out.String()
}

// The README names a file for every answered question and no other.
func TestQuestionsAreListed(t *testing.T) {
	readme, err := os.ReadFile("../../testdata/questions/README.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]string{}
	for line := range strings.Lines(string(readme)) {
		if cells := strings.Split(line, "|"); len(cells) == 7 {
			rows[strings.TrimSpace(cells[1])] = strings.TrimSpace(cells[3])
		}
	}
	for n := 1; n <= 25; n++ {
		command, listed := rows[fmt.Sprint(n)]
		file, err := os.ReadFile(fmt.Sprintf("../../testdata/questions/%02d.txt", n))
		switch {
		case !listed:
			t.Errorf("question %d is not listed", n)
		case err != nil && strings.HasPrefix(command, "`"):
			t.Errorf("question %d names %s and has no answer", n, command)
		case err == nil && !strings.Contains(string(file), "$ "+strings.Trim(command, "`")+"\n"):
			t.Errorf("question %d: %s is not what %02d.txt runs", n, command, n)
		}
	}
}
