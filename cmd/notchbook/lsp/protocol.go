package lsp

import (
	"encoding/json"
	"math"
)

// The structures of the Language Server Protocol 3.17 that this server speaks,
// named and spelled as the specification has them.

type position struct {
	Line      int `json:"line"`      // from 0
	Character int `json:"character"` // from 0, in the units agreed on
}

// UnmarshalJSON takes what the protocol calls an uinteger, and nothing below 0.
func (p *position) UnmarshalJSON(in []byte) error {
	var at struct{ Line, Character uint32 }
	err := json.Unmarshal(in, &at)
	p.Line, p.Character = int(min(at.Line, math.MaxInt32)), int(min(at.Character, math.MaxInt32))
	return err
}

type span struct {
	Start position `json:"start"`
	End   position `json:"end"` // exclusive
}

type location struct {
	URI   string `json:"uri"`
	Range span   `json:"range"`
}

type document struct {
	URI     string `json:"uri"`
	Version int    `json:"version"`
	Text    string `json:"text"`
}

type documentParams struct {
	TextDocument document `json:"textDocument"`
}

type positionParams struct {
	TextDocument document `json:"textDocument"`
	Position     position `json:"position"`
}

type rangeParams struct {
	TextDocument document `json:"textDocument"`
	Range        span     `json:"range"`
}

type initializeParams struct {
	RootURI          string   `json:"rootUri"`
	WorkspaceFolders []folder `json:"workspaceFolders"`
	Capabilities     struct {
		General struct {
			PositionEncodings []string `json:"positionEncodings"`
		} `json:"general"`
	} `json:"capabilities"`
}

type folder struct {
	URI string `json:"uri"`
}

type changeParams struct {
	TextDocument   document `json:"textDocument"`
	ContentChanges []struct {
		Range *span  `json:"range"` // nil: Text is the whole document
		Text  string `json:"text"`
	} `json:"contentChanges"`
}

type referenceParams struct {
	positionParams
	Context struct {
		IncludeDeclaration bool `json:"includeDeclaration"`
	} `json:"context"`
}

type renameParams struct {
	positionParams
	NewName string `json:"newName"`
}

type cancelParams struct {
	ID any `json:"id"`
}

type diagnostic struct {
	Range    span      `json:"range"`
	Severity int       `json:"severity"` // 1 error, 2 warning, 3 information
	Code     string    `json:"code"`
	Source   string    `json:"source"`
	Message  string    `json:"message"`
	Related  []related `json:"relatedInformation,omitempty"`
}

type related struct {
	Location location `json:"location"`
	Message  string   `json:"message"`
}

type publishParams struct {
	URI         string       `json:"uri"`
	Version     *int         `json:"version,omitempty"`
	Diagnostics []diagnostic `json:"diagnostics"`
}

type hover struct {
	Contents markup `json:"contents"`
	Range    span   `json:"range"`
}

type markup struct {
	Kind  string `json:"kind"` // "plaintext" or "markdown"
	Value string `json:"value"`
}

type completionItem struct {
	Label    string    `json:"label"`
	Kind     int       `json:"kind"`
	Detail   string    `json:"detail,omitempty"`
	SortText string    `json:"sortText,omitempty"`
	TextEdit *textEdit `json:"textEdit,omitempty"`
}

// The kinds of completion items used here.
const (
	keywordItem  = 14
	valueItem    = 12
	variableItem = 6
	fileItem     = 17
)

type textEdit struct {
	Range   span   `json:"range"`
	NewText string `json:"newText"`
}

type workspaceEdit struct {
	Changes map[string][]textEdit `json:"changes"`
}

type symbol struct {
	Name           string   `json:"name"`
	Detail         string   `json:"detail,omitempty"`
	Kind           int      `json:"kind"`
	Range          span     `json:"range"`
	SelectionRange span     `json:"selectionRange"`
	Children       []symbol `json:"children,omitempty"`
}

// The kinds of symbols used here: an outing is shown as a namespace, a scene as
// a class, a sheet as a field.
const (
	outingSymbol = 3
	sceneSymbol  = 5
	sheetSymbol  = 8
)

type foldingRange struct {
	StartLine int    `json:"startLine"`
	EndLine   int    `json:"endLine"`
	Kind      string `json:"kind"`
}

type codeActionParams struct {
	rangeParams
	Context struct {
		Only []string `json:"only"`
	} `json:"context"`
}

type codeAction struct {
	Title string        `json:"title"`
	Kind  string        `json:"kind"`
	Edit  workspaceEdit `json:"edit"`
}

type inlayHint struct {
	Position    position `json:"position"`
	Label       string   `json:"label"`
	PaddingLeft bool     `json:"paddingLeft"`
	Tooltip     string   `json:"tooltip,omitempty"`
}

type documentLink struct {
	Range  span   `json:"range"`
	Target string `json:"target"`
}

type semanticTokens struct {
	Data []uint32 `json:"data"`
}

// capabilities is what this server can do, as initialize answers.
func capabilities(encoding string) map[string]any {
	return map[string]any{
		"positionEncoding":           encoding,
		"textDocumentSync":           map[string]any{"openClose": true, "change": 2, "save": true},
		"hoverProvider":              true,
		"completionProvider":         map[string]any{"triggerCharacters": []string{":", ",", "+"}},
		"definitionProvider":         true,
		"referencesProvider":         true,
		"renameProvider":             map[string]any{"prepareProvider": true},
		"documentSymbolProvider":     true,
		"foldingRangeProvider":       true,
		"codeActionProvider":         map[string]any{"codeActionKinds": []string{"quickfix", "refactor"}},
		"documentFormattingProvider": true,
		"documentLinkProvider":       map[string]any{},
		"inlayHintProvider":          true,
		"semanticTokensProvider": map[string]any{
			"legend": map[string]any{"tokenTypes": tokenTypes, "tokenModifiers": tokenModifiers}, "full": true,
		},
	}
}
