package main

// helpCommand is --help for those who ask in words.
type helpCommand struct {
	Command string `arg:"" optional:"" help:"Name of the command. Without one, all are listed."`
}

// Run says what --help says.
func (c *helpCommand) Run(t terminal) error {
	args := []string{"--help"}
	if c.Command != "" {
		args = []string{c.Command, "--help"}
	}
	if code := run(args, t); code != right {
		return status(code)
	}
	return nil
}
