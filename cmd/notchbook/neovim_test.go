package main

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"notchbook/compile"
)

// A real editor, not written by us, attaches to the server: what it shows is
// what check says, and its formatting is tidy.
func TestRealEditorAttaches(t *testing.T) {
	nvim, err := exec.LookPath("nvim")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("CI needs Neovim (Debian package neovim): ", err)
		}
		t.Skip("no Neovim here (Debian package neovim): that an editor attaches is not tested")
	}
	dir := t.TempDir()
	copyNotes(t, filepath.Join(dir, "season"), "../../examples/aldermoor")
	program := filepath.Join(dir, "notchbook")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	season, result := filepath.Join(dir, "season"), filepath.Join(dir, "result.json")
	pages, err := os.ReadFile("lsp/EDITORS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, config, ok := strings.Cut(string(pages), "```lua\n")
	config, _, ends := strings.Cut(config, "```\n")
	if !ok || !ends {
		t.Fatal("EDITORS.md has no configuration for Neovim")
	}
	fill(t, dir, map[string]string{".config/nvim/init.lua": config})
	script, err := filepath.Abs("testdata/attach.lua")
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(nvim, "--headless", "-i", "NONE", "-n", brickworks, "-c", fmt.Sprintf("lua arg_out = %q", result), "-c", "luafile "+script)
	cmd.Dir = season
	cmd.Env = append(os.Environ(), "HOME="+dir, "PATH="+dir+string(os.PathListSeparator)+os.Getenv("PATH"), "XDG_CONFIG_HOME="+filepath.Join(dir, ".config"), "XDG_STATE_HOME="+dir, "XDG_CACHE_HOME="+dir, "XDG_DATA_HOME="+dir)
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	raw, err := os.ReadFile(result)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Found []struct {
			Line    int
			Message string
		}
		Text string
	}
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatal(err)
	}
	want := checkSays(checked(t, season, nil), brickworks)
	if len(got.Found) != len(want) || len(want) == 0 {
		t.Fatalf("the editor shows %d findings, check says %d", len(got.Found), len(want))
	}
	for i := range want {
		if got.Found[i].Line != want[i].Range.Start.Line || got.Found[i].Message != want[i].Message {
			t.Errorf("the editor shows %v, check says %v", got.Found[i], want[i])
		}
	}
	tidied, _ := compile.Tidy(compile.World{Read: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(season, name)) }}, brickworks)
	if got.Text != tidied[0].New || tidied[0].New == tidied[0].Old {
		t.Errorf("formatted in the editor:\n%s", got.Text)
	}
}
