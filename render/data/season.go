package data

import (
	"io"

	"notchbook/compile/record"
)

// seasonVersion is the version of the season's form. It changes when a reader of
// the old form could misread the new one.
const seasonVersion = 1

// seasonJSON is the whole record for other programs. Sheets are named by their
// ids; a sheet's facts are the row of the table of sheets.
type seasonJSON struct {
	Format    string         `json:"format"`
	Version   int            `json:"version"`
	Title     string         `json:"title"`
	LastDay   string         `json:"lastDay"`
	Public    bool           `json:"public"` // private remarks were left out
	Notebooks []notebookJSON `json:"notebooks"`
	Curves    []notebookJSON `json:"curves"`
	Kit       []itemJSON     `json:"kit"`
	Outings   []outingJSON   `json:"outings"`
	Sheets    []sheetJSON    `json:"sheets"`
	Findings  []finding      `json:"findings"`
	Scans     []scanJSON     `json:"scans"`
	Lost      []lossJSON     `json:"lost"`
	Tests     []testJSON     `json:"tests"`
	Cautions  []string       `json:"cautions"`
}

type notebookJSON struct {
	File   string `json:"file"`
	SHA256 string `json:"sha256"`
	Bytes  int    `json:"bytes"`
}

type lineJSON struct {
	File string `json:"file"`
	Line int    `json:"line"`
	Text string `json:"text"`
}

type factJSON struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

type itemJSON struct {
	Kind  string     `json:"kind"`
	Name  string     `json:"name"`
	Facts []factJSON `json:"facts"`
	Typed lineJSON   `json:"typed"`
}

type outingJSON struct {
	Title  string      `json:"title"`
	Date   string      `json:"date"`
	ISO    string      `json:"iso"`
	Place  string      `json:"place"`
	Scenes []sceneJSON `json:"scenes"`
	Sheets []string    `json:"sheets"`
}

type sceneJSON struct {
	Title    string        `json:"title"`
	Light    string        `json:"light"`
	Sheets   []string      `json:"sheets"`
	Compared *comparedJSON `json:"compared"` // null where it has no control beside a filtered sheet
}

type comparedJSON struct {
	Controls []string       `json:"controls"`
	Drift    *string        `json:"drift"`
	How      string         `json:"how"`
	Sheets   []filteredJSON `json:"sheets"`
}

type filteredJSON struct {
	Sheet    string     `json:"sheet"`
	Filters  string     `json:"filters"`
	Declared *float64   `json:"declaredStops"`
	By       string     `json:"by"`
	Forecast *float64   `json:"forecastStops"`
	Measured *float64   `json:"measuredStops"`
	Spots    []spotJSON `json:"spots"`
}

type spotJSON struct {
	Spot     string   `json:"spot"`
	Measured *float64 `json:"measuredStops"`
	Forecast *float64 `json:"forecastStops"`
	Subject  *string  `json:"subject"`
}

type sheetJSON struct {
	ID      string       `json:"id"`
	Facts   facts        `json:"facts"`
	Steps   []stepJSON   `json:"steps"`
	Areas   []areaJSON   `json:"areas"`
	Right   []choiceJSON `json:"right"`
	History []changeJSON `json:"history"`
	Twins   []string     `json:"twins"`
	Typed   []lineJSON   `json:"typed"`

	Densities []densityJSON `json:"densities"`
}

type densityJSON struct {
	Spot     string    `json:"spot"`
	D        float64   `json:"density"`
	Readings []float64 `json:"readings"`
}

type stepJSON struct {
	Kind   string  `json:"kind"`
	Name   string  `json:"name"`
	Stops  float64 `json:"stops"`
	Detail string  `json:"detail"`
	From   string  `json:"from"`
}

type areaJSON struct {
	Name  string   `json:"name"`
	EV    float64  `json:"ev"`
	Meant *float64 `json:"meantZone"`
	Fell  *float64 `json:"fellZone"`
}

type choiceJSON struct {
	Kind     string  `json:"kind"`
	Aperture string  `json:"aperture"`
	Time     string  `json:"time"`
	Left     float64 `json:"leftStops"`
}

type changeJSON struct {
	Was  string `json:"was"`
	Now  string `json:"now"`
	How  string `json:"how"`
	File string `json:"file"`
	Line int    `json:"line"`
}

type scanJSON struct {
	Path   string   `json:"path"`
	State  string   `json:"state"`
	Why    string   `json:"why"`
	Format string   `json:"format"`
	Width  int      `json:"widthPixels"`
	Height int      `json:"heightPixels"`
	Depth  int      `json:"bitsPerChannel"`
	Bytes  int64    `json:"bytes"`
	SHA256 string   `json:"sha256"`
	Was    *string  `json:"was"`
	Sheets []string `json:"sheets"`
}

type lossJSON struct {
	Cause  string   `json:"cause"`
	Sheets []string `json:"sheets"`
}

// Season writes the whole record as JSON. The form is described in
// lang/NOTATION.md.
func Season(w io.Writer, s *record.Season) error {
	out := seasonJSON{
		Format: "notchbook season", Version: seasonVersion, Title: s.Title, LastDay: s.LastDay, Public: s.Public,
		Notebooks: []notebookJSON{}, Curves: []notebookJSON{}, Kit: []itemJSON{}, Outings: []outingJSON{}, Sheets: []sheetJSON{}, Findings: []finding{},
		Scans: []scanJSON{}, Lost: []lossJSON{}, Tests: testsOf(s, ""), Cautions: list(s.Cautions),
	}
	for _, n := range s.Notebooks {
		out.Notebooks = append(out.Notebooks, notebookJSON{n.CopyName(), n.SHA256, n.Bytes})
	}
	for _, n := range s.Curves {
		out.Curves = append(out.Curves, notebookJSON{n.CopyName(), n.SHA256, n.Bytes})
	}
	for _, it := range s.Kit {
		out.Kit = append(out.Kit, newItem(it))
	}
	for _, o := range s.Outings {
		out.Outings = append(out.Outings, newOuting(o))
	}
	for _, sh := range s.Sheets {
		out.Sheets = append(out.Sheets, newSheet(sh))
	}
	for _, f := range s.Findings {
		out.Findings = append(out.Findings, newFinding(f, ""))
	}
	for _, sc := range s.Scans {
		out.Scans = append(out.Scans, scanJSON{sc.Path, string(sc.State), sc.Why, sc.Format, sc.Width, sc.Height, sc.Depth, sc.Bytes, sc.SHA256, orNull(sc.Was), idsOf(sc.Sheets)})
	}
	for _, l := range s.Losses {
		out.Lost = append(out.Lost, lossJSON{l.Cause, idsOf(l.Sheets)})
	}
	return indented(w, out)
}

func idsOf(sheets []*record.Sheet) []string {
	ids := make([]string, 0, len(sheets))
	for _, s := range sheets {
		ids = append(ids, s.ID)
	}
	return ids
}

func newItem(it *record.Item) itemJSON {
	out := itemJSON{it.Kind, it.Name, []factJSON{}, lineJSON{it.Place.Path, it.Place.Line, it.Source}}
	for _, f := range it.Facts {
		out.Facts = append(out.Facts, factJSON(f))
	}
	return out
}

func newOuting(o *record.Outing) outingJSON {
	out := outingJSON{o.Title, o.Date, o.ISO, o.Place, []sceneJSON{}, idsOf(o.Sheets)}
	for _, sc := range o.Scenes {
		out.Scenes = append(out.Scenes, sceneJSON{sc.Title, sc.Light, idsOf(sc.Sheets), comparedOf(sc.Compared)})
	}
	return out
}

// comparedOf is what the filters of a scene did: measured to a hundredth of a stop,
// forecast to a third.
func comparedOf(c *record.Compared) *comparedJSON {
	if c == nil {
		return nil
	}
	out := &comparedJSON{Controls: idsOf(c.Controls), Drift: orNull(c.Drift), How: c.How, Sheets: []filteredJSON{}}
	for _, f := range c.Sheets {
		sheet := filteredJSON{f.Sheet.ID, f.Name, rounded(f.Declared, hundredths), f.By, rounded(f.Forecast, third), rounded(f.Measured, hundredths), []spotJSON{}}
		for _, m := range f.Spots {
			sheet.Spots = append(sheet.Spots, spotJSON{m.Spot, rounded(m.Measured, hundredths), rounded(m.Forecast, third), orNull(m.Subject)})
		}
		out.Sheets = append(out.Sheets, sheet)
	}
	return out
}

func rounded(f record.Figure, to func(float64) float64) *float64 {
	if !f.Known {
		return nil
	}
	v := to(f.Value)
	return &v
}

func newSheet(s *record.Sheet) sheetJSON {
	out := sheetJSON{s.ID, facts{s}, []stepJSON{}, []areaJSON{}, []choiceJSON{}, []changeJSON{}, idsOf(s.Twins), []lineJSON{}, []densityJSON{}}
	for _, d := range s.Densities {
		out.Densities = append(out.Densities, densityJSON{d.Spot, thousandths(d.D), d.Readings})
	}
	for _, st := range s.Steps {
		out.Steps = append(out.Steps, stepJSON(st))
	}
	if s.Reading != nil {
		for _, a := range s.Reading.Areas {
			out.Areas = append(out.Areas, areaJSON{a.Name, a.EV, figure(a.Meant), figure(a.Fell)})
		}
	}
	for _, c := range s.Choices {
		out.Right = append(out.Right, choiceJSON(c))
	}
	for _, c := range s.History {
		out.History = append(out.History, changeJSON{c.Was, c.Now, c.How, c.Place.Path, c.Place.Line})
	}
	for _, l := range s.Lines {
		out.Typed = append(out.Typed, lineJSON{l.Place.Path, l.Place.Line, l.Text})
	}
	return out
}
