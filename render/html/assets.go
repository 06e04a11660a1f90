package html

import (
	"embed"
	"html/template"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"

	"notchbook/render/saying"
)

//go:embed page/*.html
var pageFiles embed.FS

//go:embed page/style.css
var styleSheet []byte

//go:embed page/look.js
var lookScript []byte

//go:embed fonts/LICENSE.txt
var fontLicence []byte

// templates are parsed once, when there are pages to write; html/template then works
// out the escaping of each place in them on first use.
var templates = sync.OnceValue(func() *template.Template {
	return template.Must(template.New("").Funcs(template.FuncMap{
		"count":    saying.Count,
		"lostFrom": func() string { return title(saying.LostFrom) + "." },
		"place":    placeWords,
		"joined":   saying.Join,
		"dotted":   dotted,
		"dated":    func(s string) template.HTML { return piece(func(m *markup) { m.dated(s) }) },
	}).ParseFS(pageFiles, "page/*.html"))
})

// assets are the files that every record carries. The typeface comes along, so
// that a column of figures stands straight on any machine.
func assets() []file {
	return []file{
		{"style.css", styleSheet},
		{"look.js", lookScript},
		{"fonts/go-regular.ttf", goregular.TTF},
		{"fonts/go-bold.ttf", gobold.TTF},
		{"fonts/go-italic.ttf", goitalic.TTF},
		{"fonts/go-mono.ttf", gomono.TTF},
		{"fonts/LICENSE.txt", fontLicence},
	}
}

type file struct {
	name  string
	bytes []byte
}

func writeAssets(dst Folder) error {
	for _, f := range assets() {
		if err := writeFile(dst, f.name, f.bytes); err != nil {
			return err
		}
	}
	return nil
}
