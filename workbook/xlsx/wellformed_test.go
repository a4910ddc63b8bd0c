package xlsx

import (
	"fmt"
	"strings"
	"testing"
)

// What a part may be (XML 1.0 and Namespaces in XML 1.0, W3C), beside what programs refuse.
func TestPartsAreReadAsProgramsReadThem(t *testing.T) {
	for _, good := range []string{
		`<a/>`,
		"\uFEFF" + `<?xml version="1.0"?><!-- a - b --><a x='1' y="2>"><b/>é &amp; &#233; <![CDATA[<&]]></a> ` + "\n",
		`<?xml version='1.0' encoding='utf-8' standalone="no" ?><?x?><?x y?><a/>`,
		`<p:a xmlns:p="one" p:x="1" x="2"><p:b/></p:a>`,
		`<a><p:b xmlns:p="one"/><p:b xmlns:p="two"/></a>`,
		`<a xml:space="preserve"/>`,
		`<a b="}" xmlns="one two"/>`,
		`<å é="1"/>`,
		`<p:a p:x="1" xmlns:p="one"/>`,
	} {
		if _, err := wellFormed([]byte(good)); err != nil {
			t.Errorf("%s: %v", good, err)
		}
	}
	for _, bad := range []string{
		``, ` `, `text`, `<a>`, `</a>`, `<a></b>`, `<a/><a/>`, `<a/>text`, `<a b/>`, `<a b=1/>`, `<a b="1"c="2"/>`, `<a b="1" b="2"/>`,
		`<a b="<"/>`, `<a b="&"/>`, `<a>&</a>`, `<a>&nbsp;</a>`, `<a>&#0;</a>`, `<a>` + "\x01" + `</a>`, `<a>` + "\xff" + `</a>`, `<a>]]></a>`,
		`<p:a/>`, `<a p:b="1"/>`, `<a><p:b xmlns:p="one"/><p:b/></a>`, `<a xmlns:p="one" xmlns:q="one" p:x="1" q:x="2"/>`, `<a xmlns:p=""/>`,
		`<a><p:b xmlns:p="one"></p:b><p:b/></a>`, `<a xmlns="on}e"/>`, `<a xmlns:p="one&#125;"/>`,
		`<a><!-- a -- b --></a>`, `<!DOCTYPE a><a/>`, `<a><?xml version="1.0"?></a>`, `<1a/>`, `<a:/>`, `<:a/>`, `<a:b:c xmlns:a="one"/>`,
		`<?xml version=""?><a/>`, `<?xml version="1.0" encoding="UTF-16"?><a/>`, "<?xml vers\xC3ion=\"1.0\"?><a/>", `<a><? x?></a>`, "<a><!-- \x01 --></a>", "<a><?x \xff?></a>",
		"<a\xC3b/>", "<a \xC3b=\"1\"/>", `<a/ >`, `<a`, `<a b="`, `<![CDATA[x]]>`, `<a><![CDATA[x]]`,
	} {
		if _, err := wellFormed([]byte(bad)); err == nil {
			t.Errorf("%q is taken for well made", bad)
		}
	}
}

// What would take a reader long is refused, and no workbook has it.
func TestPartsOfManyAttributesAndOfGreatDepth(t *testing.T) {
	several := func(form string, count int) string {
		var text strings.Builder
		for number := range count {
			fmt.Fprintf(&text, form, number)
		}
		return text.String()
	}
	nested := func(tag string, count int) string {
		return strings.Repeat("<"+tag+">", count) + strings.Repeat("</"+tag+">", count)
	}
	for _, row := range []struct {
		text string
		good bool
	}{
		{"<a" + several(` b%d="1"`, mostAttributes) + "/>", true},
		{"<a" + several(` b%d="1"`, mostAttributes+1) + "/>", false},
		{"<a" + several(` xmlns:b%d="c"`, mostPrefixes) + "/>", true},
		{"<a" + several(` xmlns:b%d="c"`, mostPrefixes-1) + `><a xmlns:d="e"/></a>`, true},
		{"<a" + several(` xmlns:b%d="c"`, mostPrefixes-1) + `><a xmlns:d="e" xmlns:f="g"/></a>`, false},
		{nested("a", deepest), true},
		{nested("a", deepest+1), false},
	} {
		if _, err := wellFormed([]byte(row.text)); (err == nil) != row.good {
			t.Errorf("%.40s…: %v", row.text, err)
		}
	}
}

// What would make the text </row> something else than the end of a row, or its end another text, is seen.
func TestOddMarkupIsSeen(t *testing.T) {
	for text, want := range map[string]bool{
		`<row r="1"><c r="A1"><v>1</v></c></row>`:                  false,
		`<row r="1" ><c r="A1" /></row>`:                           false,
		`<row><c><is><t>row ></t></is></c></row>`:                  false,
		`<row r="1"><c r="A1"/></row >`:                            true,
		"<row r=\"1\"><c r=\"A1\"></c\n></row>":                    true,
		`<row r="1"><!-- </row> --><c r="A1"/></row>`:              true,
		`<row r="1"><c r="A1"><v><![CDATA[</row>]]></v></c></row>`: true,
	} {
		reader := xmlReader{data: text, piece: true}
		if err := reader.read(); err != nil || reader.odd != want {
			t.Errorf("%s is odd: %v (%v); want %v", text, reader.odd, err, want)
		}
	}
}
