package pdf

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"notchbook/compile/record"
)

// shelf has five sleeves of four negatives, and holder sides in every state.
func shelf() *record.Season {
	s := &record.Season{Title: "Shelf", LastDay: "2026-11-21", Kit: []*record.Item{
		{Kind: "film", Name: "slate", Facts: []record.Fact{{Name: "exposure index", Value: "250"}}}}}
	o := &record.Outing{Title: "Wharf", ISO: "2026-11-07", Place: "Aldermoor wharf"}
	for i := range 20 {
		x := sheet(s, o, nil, fmt.Sprintf("%dA", i+1), record.Right)
		x.Number, x.Sleeve = fmt.Sprintf("26-%03d", 41+i), fmt.Sprintf("binder 2, page %d", 14+i/4)
	}
	s.Negatives.Numbered = s.Sheets
	for i, state := range []record.HolderState{record.Loaded, record.Exposed, record.Empty, record.Developed, record.Unknown} {
		h := &record.HolderSide{Label: fmt.Sprintf("%dB", i+1), State: state}
		if i < 2 {
			h.Film = "slate"
			h.Events = []record.SideEvent{{Date: "2026-10-25", What: "loaded"}, {Date: "2026-11-07", What: "exposed"}}[:i+1]
		}
		s.Holders = append(s.Holders, h)
	}
	return s
}

func writeLabels(t *testing.T, s *record.Season, size LabelSize, o Options) string {
	t.Helper()
	var out, again bytes.Buffer
	if err := WriteLabels(&out, s, size, o); err != nil {
		t.Fatal(err)
	}
	if err := WriteLabels(&again, s, size, o); err != nil || !bytes.Equal(out.Bytes(), again.Bytes()) {
		t.Error("the same labels are other bytes ", err)
	}
	path := filepath.Join(t.TempDir(), "labels.pdf")
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestLabelsSayWhatIsInSleevesAndHolders(t *testing.T) {
	text := run(t, "pdftotext", "-layout", writeLabels(t, shelf(), LabelSize{70, 37}, testOptions), "-")
	for _, want := range []string{"binder 2, page 14", "26-041 – 26-044", "26-057 – 26-060", "Aldermoor wharf", "2026-11-07",
		"1B", "slate, EI 250", "loaded 2026-10-25", "loaded 2026-10-25, exposed 2026-11-07"} {
		if !strings.Contains(text, want) {
			t.Errorf("no label says %q", want)
		}
	}
	// sides without film have three lines to be filled in
	if got := strings.Count(text, "film"); got != 3 {
		t.Errorf("%d labels to be filled in, want 3", got)
	}
}

// However small the labels and long the words: each word lies within the label of
// which it is, and all on the paper.
func TestLabelsKeepWithinTheirCuts(t *testing.T) {
	s := shelf()
	s.Sheets[0].Sleeve, s.Sheets[0].Outing.Place = longWord, longRemark
	s.Holders[0].Film = longWord + " " + family
	for _, size := range []LabelSize{{70, 37}, {25, 12}, {48.5, 16.9}, {105, 148.5}, {100, 30}} {
		for paper, form := range papers {
			if size.Fits(paper) != nil {
				continue
			}
			file := writeLabels(t, s, size, Options{Paper: paper})
			if out := run(t, "qpdf", "--check", file); strings.Contains(out, "WARNING") {
				t.Error(out)
			}
			across, down := size.counts(form)
			w, h := size.Width*millimetre, size.Height*millimetre
			left, top := (form.w-float64(across)*w)/2, (form.h-float64(down)*h)/2
			for _, m := range bboxWord.FindAllStringSubmatch(run(t, "pdftotext", "-bbox", file, "-"), -1) {
				var box [4]float64
				for j := range box {
					box[j], _ = strconv.ParseFloat(m[j+1], 64)
				}
				column, row := int((box[0]-left)/w), int(((box[1]+box[3])/2-top)/h)
				if box[0] < left-0.1 || box[2] > left+float64(column+1)*w+0.1 || box[3] > top+float64(row+1)*h+1.5 || row >= down || column >= across {
					t.Errorf("%v on %s: %q at %v leaves its label", size, form.name, m[5], box)
				}
			}
		}
	}
}

// Sizes that a whole number of times make A4 (ISO 216: 210 × 297 mm) are those of
// sheets sold ready cut, and are set without a margin.
func TestLabelsFillPaperThatIsSoldCut(t *testing.T) {
	for _, c := range []struct {
		size         LabelSize
		across, down int
	}{{LabelSize{70, 37}, 3, 8}, {LabelSize{105, 148.5}, 2, 2}, {LabelSize{52.5, 29.7}, 4, 10}, {LabelSize{60, 30}, 3, 9}} {
		if a, d := c.size.counts(papers[A4]); a != c.across || d != c.down {
			t.Errorf("%v: %d × %d", c.size, a, d)
		}
	}
	for _, size := range []LabelSize{{}, {-70, 37}, {10, 10}, {300, 40}, {70, 1e9}} {
		if size.Fits(A4) == nil {
			t.Errorf("%v fits", size)
		}
	}
}

func TestNumbersThatFollowOneAnother(t *testing.T) {
	for in, want := range map[string]string{
		"26-041 26-042 26-043 26-045": "26-041 – 26-043, 26-045", "26-099 26-100": "26-099 – 26-100", "9 10": "9 – 10", "a b": "a, b", "": "",
	} {
		if got := strings.Join(numberRuns(strings.Fields(in)), ", "); got != want {
			t.Errorf("%s: %s", in, got)
		}
	}
}
