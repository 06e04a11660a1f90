package data

import (
	"bytes"
	"os"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"notchbook/compile/record"
)

// The schema is the one that OASIS publishes (testdata/sarif).
func sarifSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	const name = "sarif-schema-2.1.0.json"
	file, err := os.Open("../../testdata/sarif/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	text, err := jsonschema.UnmarshalJSON(file)
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(name, text); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile(name)
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

func TestSARIFIsValidAgainstItsSchema(t *testing.T) {
	schema := sarifSchema(t)
	for name, s := range map[string]*record.Season{"with findings": season(), "empty": {}} {
		var b bytes.Buffer
		if err := SARIF(&b, s, "", "0.1"); err != nil {
			t.Fatal(err)
		}
		log, err := jsonschema.UnmarshalJSON(&b)
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(log); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if len(s.Findings) == 0 {
			continue
		}
		// That the schema does tell right from wrong.
		run := log.(map[string]any)["runs"].([]any)[0].(map[string]any)
		run["results"].([]any)[0].(map[string]any)["level"] = "grave"
		if schema.Validate(log) == nil {
			t.Error("a level that the standard does not know passes")
		}
	}
}
