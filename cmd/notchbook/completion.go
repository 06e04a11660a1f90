package main

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"github.com/alecthomas/kong"
)

// completionCommand prints what teaches a shell the commands and their flags. It
// is made of the same descriptions as the help, and the shell asks nothing of
// the program when it completes.
type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"Name of the shell: bash, zsh or fish."`
}

// Run prints the shell's own code.
func (c *completionCommand) Run(app *kong.Kong, t terminal) error {
	write := map[string]func(io.Writer, []described){"bash": bashCompletion, "zsh": zshCompletion, "fish": fishCompletion}
	write[c.Shell](t.out, describe(app))
	return nil
}

// described is a command as its tags describe it.
type described struct {
	name, help, usage string
	flags             []describedFlag
	arguments         []describedFlag
}

type describedFlag struct {
	name, short, help string
	value             string   // placeholder; "" for a switch
	choices           []string // the only values it takes
}

// describe reads the commands off the command line's own model.
func describe(app *kong.Kong) []described {
	var all []described
	for _, node := range app.Model.Children {
		if node.Hidden {
			continue
		}
		d := described{name: node.Name, help: node.Help, usage: node.Summary()}
		for _, f := range node.Flags {
			d.flags = append(d.flags, describeFlag(f))
		}
		for _, p := range node.Positional {
			d.arguments = append(d.arguments, describedFlag{name: p.Name, help: p.Help, choices: choicesOf(p)})
		}
		all = append(all, d)
	}
	for i := range all { // what help explains is known only now
		if all[i].name == "help" && len(all[i].arguments) > 0 {
			all[i].arguments[0].choices = names(all)
		}
	}
	return all
}

func describeFlag(f *kong.Flag) describedFlag {
	d := describedFlag{name: f.Name, help: f.Help, choices: choicesOf(f.Value)}
	if f.Short != 0 {
		d.short = string(f.Short)
	}
	if !f.IsBool() {
		d.value = f.FormatPlaceHolder()
	}
	return d
}

func choicesOf(v *kong.Value) []string {
	choices := cmp.Or(v.Enum, v.Tag.Get("choices")) // the latter where the program itself says what else may be meant
	if choices == "" {
		return nil
	}
	return strings.Split(choices, ",")
}

func (d *described) words() []string {
	var all []string
	for _, f := range d.flags {
		all = append(all, "--"+f.name)
		if f.short != "" {
			all = append(all, "-"+f.short)
		}
	}
	return append(all, d.choices()...)
}

// choices are the only words that its arguments may be; none where they are files or
// anything.
func (d *described) choices() []string {
	var all []string
	for _, a := range d.arguments {
		all = append(all, a.choices...)
	}
	return all
}

func names(all []described) []string {
	var names []string
	for _, d := range all {
		names = append(names, d.name)
	}
	return names
}

// bashCompletion completes commands, flags and the values of flags; elsewhere
// files, which is bash's own way with -o default.
func bashCompletion(w io.Writer, all []described) {
	fmt.Fprintf(w, "# notchbook completion bash > /etc/bash_completion.d/notchbook\n_notchbook() {\n\tlocal word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} words=\n")
	fmt.Fprintf(w, "\tif [ \"$COMP_CWORD\" = 1 ]; then\n\t\tCOMPREPLY=($(compgen -W '%s --help --version' -- \"$word\"))\n\t\treturn\n\tfi\n", strings.Join(names(all), " "))
	fmt.Fprint(w, "\tcase ${COMP_WORDS[1]}:$before in\n")
	for _, d := range all {
		for _, f := range d.flags {
			if len(f.choices) > 0 {
				fmt.Fprintf(w, "\t%s:--%s) words='%s' ;;\n", d.name, f.name, strings.Join(f.choices, " "))
			}
		}
	}
	fmt.Fprint(w, "\t*)\n\t\tcase ${COMP_WORDS[1]} in\n")
	for _, d := range all {
		fmt.Fprintf(w, "\t\t%s) words='%s' ;;\n", d.name, strings.Join(d.words(), " "))
	}
	var chosen []string
	for _, d := range all {
		if len(d.choices()) > 0 {
			chosen = append(chosen, d.name)
		}
	}
	fmt.Fprintf(w, "\t\tesac\n\t\t[[ $word == -* || ' %s ' == *\" ${COMP_WORDS[1]} \"* ]] || words= ;;\n\tesac\n\tCOMPREPLY=($(compgen -W \"$words\" -- \"$word\"))\n}\ncomplete -o default -F _notchbook notchbook\n", strings.Join(chosen, " "))
}

// zshCompletion describes commands and flags in zsh's own terms.
func zshCompletion(w io.Writer, all []described) {
	fmt.Fprint(w, "#compdef notchbook\n# notchbook completion zsh > a folder of $fpath/_notchbook\n_notchbook() {\n\tlocal -a commands\n\tcommands=(\n")
	for _, d := range all {
		fmt.Fprintf(w, "\t\t'%s:%s'\n", d.name, zshText(d.help))
	}
	fmt.Fprint(w, "\t)\n\tif (( CURRENT == 2 )); then\n\t\t_describe command commands\n\t\treturn\n\tfi\n\tcase $words[2] in\n")
	for _, d := range all {
		fmt.Fprintf(w, "\t%s) _arguments", d.name)
		for _, f := range d.flags {
			fmt.Fprintf(w, " '--%s[%s]%s'", f.name, zshText(f.help), zshValue(f))
		}
		if choices := d.choices(); len(choices) > 0 {
			fmt.Fprintf(w, " '*:word:(%s)' ;;\n", strings.Join(choices, " "))
		} else {
			fmt.Fprint(w, " '*:file:_files' ;;\n")
		}
	}
	fmt.Fprint(w, "\tesac\n}\ncompdef _notchbook notchbook\n")
}

func zshValue(f describedFlag) string {
	switch {
	case len(f.choices) > 0:
		return ":value:(" + strings.Join(f.choices, " ") + ")"
	case f.value != "":
		return ":value:_files"
	}
	return ""
}

// zshText is a help text within single quotes, brackets and colons.
func zshText(help string) string {
	return strings.NewReplacer("'", "’", "[", "(", "]", ")", ":", "\\:").Replace(help)
}

// fishCompletion is a line for each command and flag.
func fishCompletion(w io.Writer, all []described) {
	fmt.Fprintf(w, "# notchbook completion fish > ~/.config/fish/completions/notchbook.fish\nset -l commands %s\n", strings.Join(names(all), " "))
	for _, d := range all {
		fmt.Fprintf(w, "complete -c notchbook -n \"not __fish_seen_subcommand_from $commands\" -f -a %s -d '%s'\n", d.name, fishText(d.help))
		if choices := d.choices(); len(choices) > 0 {
			fmt.Fprintf(w, "complete -c notchbook -n \"__fish_seen_subcommand_from %s\" -f -a '%s'\n", d.name, strings.Join(choices, " "))
		}
		for _, f := range d.flags {
			fmt.Fprintf(w, "complete -c notchbook -n \"__fish_seen_subcommand_from %s\" -l %s -d '%s'", d.name, f.name, fishText(f.help))
			if f.short != "" {
				fmt.Fprintf(w, " -s %s", f.short)
			}
			switch {
			case len(f.choices) > 0:
				fmt.Fprintf(w, " -x -a '%s'", strings.Join(f.choices, " "))
			case f.value != "":
				fmt.Fprint(w, " -r")
			}
			fmt.Fprintln(w)
		}
	}
}

func fishText(help string) string { return strings.ReplaceAll(help, "'", "’") }
