package lang

import "maps"

// Numbers in words in German and French, as notes that are otherwise read have them (common practice, no source). What is
// another word as well (neuf, sept, cent, six) is none.

// oneAbroad are the articles that are one before a unit: eine Sekunde, une seconde.
var oneAbroad = []string{"eine", "einer", "einem", "ein", "une", "un"}

func init() {
	units := map[string]int{"zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6, "sieben": 7, "acht": 8, "neun": 9}
	tens := map[string]int{"zwanzig": 20, "dreißig": 30, "dreissig": 30, "vierzig": 40, "fünfzig": 50, "sechzig": 60, "siebzig": 70, "achtzig": 80, "neunzig": 90}
	german := map[string]int{"zehn": 10, "elf": 11, "zwölf": 12, "dreizehn": 13, "vierzehn": 14, "fünfzehn": 15, "sechzehn": 16, "siebzehn": 17, "achtzehn": 18, "neunzehn": 19}
	maps.Copy(german, units)
	maps.Copy(german, tens)
	units["ein"] = 1
	for ten, n := range tens {
		for unit, more := range units {
			german[unit+"und"+ten] = n + more
		}
	}
	for word, n := range german {
		if end := "tel"; n < 20 {
			ordinals[word+end] = n
		} else {
			ordinals[word+"s"+end] = n
		}
	}
	maps.Copy(cardinals, german)
	maps.Copy(cardinals, map[string]int{"deux": 2, "trois": 3, "quatre": 4, "cinq": 5, "huit": 8, "dix": 10, "onze": 11, "douze": 12, "treize": 13, "quatorze": 14, "quinze": 15, "seize": 16, "vingt": 20, "trente": 30, "quarante": 40, "cinquante": 50, "soixante": 60})
	delete(ordinals, "zweitel")
	delete(ordinals, "dreitel")
	delete(ordinals, "siebentel")
	delete(ordinals, "achttel")
	maps.Copy(ordinals, map[string]int{"drittel": 3, "siebtel": 7, "achtel": 8, "hundertstel": 100, "hundertfünfundzwanzigstel": 125, "zweihundertfünfzigstel": 250,
		"quart": 4, "cinquième": 5, "huitième": 8, "dixième": 10, "quinzième": 15, "vingtième": 20, "vingt-cinquième": 25, "trentième": 30, "cinquantième": 50, "soixantième": 60, "centième": 100, "cent-vingt-cinquième": 125})
	for word := range cardinals {
		numberWords[word] = true
	}
	for word := range ordinals {
		numberWords[word[:letterRun(word, 0)]] = true
	}
	for _, word := range oneAbroad {
		numberWords[word] = true
	}
}
