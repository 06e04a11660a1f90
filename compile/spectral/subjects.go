package spectral

// Subject is something in front of the camera, by its place in List.
type Subject int

// What moves against grey. Still water shows the sky that it mirrors, for water reflects
// all colours within the range nearly alike; what it mirrors here is clear sky.
const (
	Sky Subject = iota
	Water
	Cloud
	Foliage
	DryGrass
	Brick
	Wood
	Skin
	YellowFlower
	RedFlower
	VioletFlower
	Stone
	Subjects = int(Stone) + 1
)

// Kind is what is said of a subject.
type Kind struct {
	Name  string // "clear sky"
	Key   string // "sky", as notes and data call it
	From  string // the curves that stand for it
	Model bool   // no measured curve: what it is taken for stands in From
	words []string
}

// List is all subjects, in order.
func List() []Kind { return kinds[:] }

const usgs = "USGS Spectral Library 7"

var kinds = [Subjects]Kind{
	Sky:          {"clear sky", "sky", "CIE daylight of 15 000 K, 12 000 to 20 000 K", false, []string{"sky", "blue sky", "clear sky", "zenith"}},
	Water:        {"water", "water", "taken as a mirror of clear sky", true, []string{"water", "still water", "reflection"}},
	Cloud:        {"white cloud", "cloud", "taken as white in the light of the scene", true, []string{"cloud", "clouds", "snow", "overcast sky", "grey sky"}},
	Foliage:      {"foliage", "foliage", usgs + ", oak leaf and pine needles", false, []string{"foliage", "leaf", "leaves", "tree", "trees", "oak", "pine", "hedge"}},
	DryGrass:     {"dry grass", "grass", usgs, false, []string{"dry grass", "straw", "reeds"}},
	Brick:        {"red brick", "brick", usgs, false, []string{"brick", "bricks", "brickwork", "red brick", "kiln"}},
	Wood:         {"weathered wood", "wood", usgs + ", cedar", false, []string{"wood", "timber", "boards", "cedar"}},
	Skin:         {"skin", "skin", "Cooksey, Allen and Tsai, NIST 2017, mean, light and dark", false, []string{"skin", "face", "hand", "hands"}},
	YellowFlower: {"yellow flower", "yellow-flower", usgs + ", pansy", false, []string{"yellow flower"}},
	RedFlower:    {"red flower", "red-flower", usgs + ", geranium", false, []string{"red flower"}},
	VioletFlower: {"violet flower", "violet-flower", usgs + ", balloon flower", false, []string{"violet flower"}},
	Stone:        {"grey stone", "stone", "taken as grey", true, []string{"stone", "concrete", "slate", "card", "grey card"}},
}

// Named finds a subject by a word of the notes: "sky", "brick", "grey card".
func Named(word string) (Subject, bool) {
	for i, k := range kinds {
		for _, w := range k.words {
			if w == word {
				return Subject(i), true
			}
		}
	}
	return 0, false
}

// subjectCurve is one curve of a subject. The first of a subject is its figure, the
// others show how far such things differ.
type subjectCurve struct {
	subject Subject
	first   bool
	glows   bool // its own light, not the main light's reflection
	curve   Curve
}

// drawn names the curves in the table, by subject.
var drawn = [...]struct {
	subject Subject
	column  string
}{
	{Sky, "L:sky_clear_D15000"}, {Sky, "L:sky_clear_D12000"}, {Sky, "L:sky_clear_D20000"},
	{Water, "L:sky_clear_D15000"}, {Water, "L:sky_clear_D12000"}, {Water, "L:sky_clear_D20000"},
	{Cloud, "R:cloud_white_MODEL"},
	{Foliage, "R:foliage_oak_leaf"}, {Foliage, "R:foliage_pine_needles"},
	{DryGrass, "R:grass_dry_golden"},
	{Brick, "R:red_brick"},
	{Wood, "R:wood_weathered_cedar"},
	{Skin, "R:skin_mean"}, {Skin, "R:skin_light"}, {Skin, "R:skin_dark"},
	{YellowFlower, "R:flower_yellow_pansy"}, {RedFlower, "R:flower_red_geranium"}, {VioletFlower, "R:flower_violet_platycodon"},
	{Stone, "R:neutral_grey_18_MODEL"},
}

func drawAll(subjects map[string]Curve) []subjectCurve {
	var out []subjectCurve
	last := Subject(-1)
	for _, d := range drawn {
		out = append(out, subjectCurve{subject: d.subject, first: d.subject != last, glows: d.column[0] == 'L', curve: subjects[d.column]})
		last = d.subject
	}
	return out
}
