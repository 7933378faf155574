package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/alecthomas/kong"

	"heddle/deliver"
	"heddle/exercise"
)

// completionCommand prints a script for a shell.
type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

// Help comes before the flags.
func (completionCommand) Help() string {
	return `Completes commands, flags and their values with the Tab key. For bash:

  heddle completion bash > ~/.local/share/bash-completion/completions/heddle

For zsh, put the script in a file named _heddle in a folder of your fpath; for
fish, in ~/.config/fish/completions/heddle.fish.`
}

// shellScripts ask heddle itself for the candidates, so that they always
// match the commands.
var shellScripts = map[string]string{
	"bash": `_heddle() {
  local IFS=$'\n'
  COMPREPLY=($(heddle __complete -- "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null))
  local i
  # Inside quotes already typed, the shell adds none.
  case "${COMP_WORDS[COMP_CWORD]}" in [\"\']*) return ;; esac
  for i in "${!COMPREPLY[@]}"; do
    case "${COMPREPLY[i]}" in *[!A-Za-z0-9_=./:-]*) COMPREPLY[i]="\"${COMPREPLY[i]}\"" ;; esac
  done
  [ ${#COMPREPLY[@]} -gt 0 ] || compopt -o default
}
complete -F _heddle heddle
`,
	"zsh": `#compdef heddle
_heddle() {
  local -a found
  found=("${(@f)$(heddle __complete -- "${(@)words[2,CURRENT]}" 2>/dev/null)}")
  if [[ -n "${found[1]}" ]]; then compadd -a found; else _files; fi
}
compdef _heddle heddle
`,
	"fish": `function __heddle_complete
  set -l words (commandline -opc) (commandline -ct)
  heddle __complete -- $words[2..-1] 2>/dev/null
end
complete -c heddle -f -a '(__heddle_complete)'
`,
}

// Run prints the script.
func (c *completionCommand) Run(s streams) error {
	_, err := io.WriteString(s.out, shellScripts[c.Shell])
	return err
}

// completeCommand lists the candidates for the last of the words typed.
type completeCommand struct {
	Words []string `arg:"" optional:"" passthrough:""`
}

// Run prints one candidate to a line.
func (c *completeCommand) Run(s streams, parser *kong.Kong) error {
	words := c.Words
	if len(words) > 0 && words[0] == "--" {
		words = words[1:]
	}
	for _, candidate := range candidates(parser.Model, words) {
		fmt.Fprintln(s.out, candidate)
	}
	return nil
}

// candidates lists what the last word may become: a command, a flag, or a value
// of the flag before it. The last word is as typed: an opening quote and a
// backslash before a space are not part of it. Without a command, the flags are
// those of bench.
func candidates(app *kong.Application, words []string) []string {
	words, before := splitEquals(words)
	if len(words) > 0 && strings.HasPrefix(words[0], "-") {
		words = append([]string{"bench"}, words...)
	}
	last := ""
	if len(words) > 0 {
		last = strings.ReplaceAll(strings.TrimLeft(words[len(words)-1], "\"'"), `\ `, " ")
	}
	var list []string
	command := findCommand(app, words)
	switch {
	case command == nil:
		for _, node := range app.Children {
			if !node.Hidden {
				list = append(list, node.Name)
			}
		}
	case takesValue(command, before):
		list = flagValues(strings.TrimPrefix(before, "--"))
	case command.Name == "completion":
		list = []string{"bash", "zsh", "fish"}
	default:
		for _, flag := range command.Flags {
			if !flag.Hidden {
				list = append(list, "--"+flag.Name)
			}
		}
		for _, below := range command.Children {
			list = append(list, below.Name)
		}
		list = append(list, "--help")
	}
	return slices.DeleteFunc(list, func(s string) bool { return !strings.HasPrefix(s, last) })
}

// splitEquals returns the words with a value after an equals sign as the last,
// and the word before it. bash passes the sign as a separate word.
func splitEquals(words []string) (split []string, before string) {
	split = slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == "=" })
	if n := len(words); n > 1 && words[n-1] == "=" {
		split = append(split, "")
	}
	if n := len(split); n > 1 {
		before = split[n-2]
	}
	return split, before
}

// takesValue reports whether the word is a flag that needs a value.
func takesValue(command *kong.Node, word string) bool {
	for _, flag := range command.Flags {
		if word == "--"+flag.Name || flag.Short != 0 && word == "-"+string(flag.Short) {
			return !flag.IsBool()
		}
	}
	return false
}

// findCommand returns the command that the words before the last name, as far
// down as they go.
func findCommand(app *kong.Application, words []string) (command *kong.Node) {
	children := app.Children
	for _, word := range words[:max(0, len(words)-1)] {
		i := slices.IndexFunc(children, func(n *kong.Node) bool { return n.Name == word && n.Type == kong.CommandNode })
		if i < 0 {
			break
		}
		command, children = children[i], children[i].Children
	}
	return command
}

// usualRoots are the roots on which chords and scales are suggested.
var usualRoots = []string{"C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"}

// flagValues lists the values that a flag is most often given.
func flagValues(flag string) []string {
	if f, err := exercise.FieldNamed(flag); err == nil {
		return f.Suggested(usualRoots...)
	}
	for _, k := range deliver.Keys() {
		if k.Name == flag {
			return k.Values()
		}
	}
	return nil
}
