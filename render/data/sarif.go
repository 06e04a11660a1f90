package data

import (
	"io"
	"net/url"
	"path"
	"strings"

	"notchbook/compile/record"
)

// SARIF writes the findings in the static analysis results interchange format,
// version 2.1.0 (OASIS), for editors and services that read it. Columns count
// characters. folder is as for Findings.
func SARIF(w io.Writer, s *record.Season, folder, version string) error {
	run := sarifRun{ColumnKind: "unicodeCodePoints", Results: []sarifResult{}}
	run.Tool.Driver = sarifDriver{Name: "notchbook", Version: version, Rules: []sarifRule{}}
	index := map[string]int{}
	for _, f := range s.Findings {
		if _, ok := index[f.Code]; !ok {
			index[f.Code] = len(run.Tool.Driver.Rules)
			run.Tool.Driver.Rules = append(run.Tool.Driver.Rules, sarifRule{ID: f.Code, Short: sarifText{f.Title}})
		}
		run.Results = append(run.Results, result(f, folder, index[f.Code]))
	}
	return encoded(w, sarifLog{
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
		Version: "2.1.0", Runs: []sarifRun{run},
	}, " ")
}

func result(f *record.Finding, folder string, rule int) sarifResult {
	text := f.Message
	for _, n := range f.Notes {
		text += "\n" + n
	}
	r := sarifResult{RuleID: f.Code, RuleIndex: rule, Level: string(f.Severity), Message: sarifText{text}}
	if f.Place.Path != "" {
		r.Locations = []sarifLocation{{sarifPhysical{artifact(within(folder, f.Place.Path)), region(f.Place)}}}
	}
	for _, at := range f.Also {
		r.Related = append(r.Related, sarifLocation{sarifPhysical{artifact(within(folder, at.Path)), region(at)}})
	}
	if f.Fix != nil {
		r.Fixes = []sarifFix{{Changes: []sarifChange{{artifact(within(folder, f.Fix.Place.Path)), []sarifReplacement{{region(f.Fix.Place), sarifText{f.Fix.Text}}}}}}}
	}
	return r
}

// artifact is a path as a URI: a relative reference, or a file's where it is absolute.
func artifact(name string) sarifArtifact {
	parts := strings.Split(name, "/")
	for i := range parts {
		parts[i] = url.PathEscape(parts[i])
	}
	uri := strings.Join(parts, "/")
	switch {
	case path.IsAbs(name):
		uri = "file://" + uri
	case len(name) > 1 && name[1] == ':': // a drive of Windows
		uri = "file:///" + uri
	}
	return sarifArtifact{uri}
}

// region is a place; SARIF's end column is exclusive, as ours is.
func region(p record.Place) *sarifRegion {
	if p.Line < 1 {
		return nil
	}
	return &sarifRegion{p.Line, max(p.Column, 1), max(p.EndLine, p.Line), max(p.EndColumn, 1)}
}

type sarifLog struct {
	Schema  string     `json:"$schema"`
	Version string     `json:"version"`
	Runs    []sarifRun `json:"runs"`
}

type sarifRun struct {
	Tool struct {
		Driver sarifDriver `json:"driver"`
	} `json:"tool"`
	ColumnKind string        `json:"columnKind"`
	Results    []sarifResult `json:"results"`
}

type sarifDriver struct {
	Name    string      `json:"name"`
	Version string      `json:"version,omitempty"`
	Rules   []sarifRule `json:"rules"`
}

type sarifRule struct {
	ID    string    `json:"id"`
	Short sarifText `json:"shortDescription"`
}

type sarifText struct {
	Text string `json:"text"`
}

type sarifResult struct {
	RuleID    string          `json:"ruleId"`
	RuleIndex int             `json:"ruleIndex"`
	Level     string          `json:"level"`
	Message   sarifText       `json:"message"`
	Locations []sarifLocation `json:"locations,omitempty"`
	Related   []sarifLocation `json:"relatedLocations,omitempty"`
	Fixes     []sarifFix      `json:"fixes,omitempty"`
}

type sarifLocation struct {
	Physical sarifPhysical `json:"physicalLocation"`
}

type sarifPhysical struct {
	Artifact sarifArtifact `json:"artifactLocation"`
	Region   *sarifRegion  `json:"region,omitempty"`
}

type sarifArtifact struct {
	URI string `json:"uri"`
}

type sarifRegion struct {
	StartLine   int `json:"startLine"`
	StartColumn int `json:"startColumn"`
	EndLine     int `json:"endLine"`
	EndColumn   int `json:"endColumn"`
}

type sarifFix struct {
	Changes []sarifChange `json:"artifactChanges"`
}

type sarifChange struct {
	Artifact     sarifArtifact      `json:"artifactLocation"`
	Replacements []sarifReplacement `json:"replacements"`
}

type sarifReplacement struct {
	Deleted  *sarifRegion `json:"deletedRegion"`
	Inserted sarifText    `json:"insertedContent"`
}
