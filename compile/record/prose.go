package record

// Block is a piece of the writer's own prose, free of Markdown: the structure
// is kept, the marks are gone, and nothing of it is markup of an output.
type Block struct {
	Kind    BlockKind
	Level   int      // Heading: 1-6
	Ordered bool     // List
	Start   int      // List: first number
	Tight   bool     // List: no blank lines between items
	Task    string   // Item: "" no task, " " open, "x" done
	Align   string   // Cell: "", "left", "center", "right"
	Head    bool     // Row: of the table's head
	Code    string   // Code: verbatim, with line ends
	Info    string   // Code: the info string
	Text    []Inline // Paragraph, Heading, Cell
	Blocks  []Block  // List: Items; Item, Quote: blocks; Table: Rows; Row: Cells
}

// BlockKind names the structure of a Block.
type BlockKind string

// The kinds of blocks.
const (
	Paragraph BlockKind = "paragraph"
	Heading   BlockKind = "heading"
	List      BlockKind = "list"
	ListItem  BlockKind = "item"
	Quote     BlockKind = "quote"
	Code      BlockKind = "code"
	Rule      BlockKind = "rule"
	Table     BlockKind = "table"
	Row       BlockKind = "row"
	Cell      BlockKind = "cell"
)

// Inline is a piece of text within a block.
type Inline struct {
	Kind    InlineKind
	Text    string   // Words, CodeSpan; Picture: the description
	Target  Target   // Link, Picture
	Title   string   // Link, Picture
	Inlines []Inline // Emphasis, Strong, Struck, Link
}

// InlineKind names the structure of an Inline.
type InlineKind string

// The kinds of inlines.
const (
	Words     InlineKind = "words"
	CodeSpan  InlineKind = "code"
	Emphasis  InlineKind = "emphasis"
	Strong    InlineKind = "strong"
	Struck    InlineKind = "struck"
	Link      InlineKind = "link"
	Picture   InlineKind = "picture"
	SoftBreak InlineKind = "soft break"
	HardBreak InlineKind = "hard break"
)

// Target is where a link or picture of the prose leads. At most one field is
// set; none is set where the target may not be followed (javascript:, file:,
// a path out of the season's folder), and then only the text is shown.
type Target struct {
	URL  string // http, https or mailto, whole
	Path string // of a file, relative to the season's folder, with slashes
}
