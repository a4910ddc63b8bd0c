package xlsx

import (
	"encoding/xml"
	"maps"
	"path/filepath"
	"strings"

	"railbook/rules/address"
)

// comments gives what is written in the notes and threaded comments of a sheet, by the cell they are on. A threaded
// comment is stored a second time as a note for programs that do not know it; it counts once.
func (b *Book) comments(sheet string) (map[Place]string, error) {
	related, err := b.contents.relations(sheet)
	if err != nil {
		return nil, errDamaged(filepath.Base(b.Path), relationsPart(sheet), err.Error())
	}
	var notes, threads map[Place]string
	for _, relation := range related {
		data, found := b.contents.parts[relation.Target]
		if !found || relation.TargetMode == "External" {
			continue
		}
		switch relation.kind() {
		case "comments":
			err = readNotes(data, &notes)
		case "threadedComment":
			err = readThreads(data, &threads)
		}
		if err != nil {
			return nil, errDamaged(filepath.Base(b.Path), relation.Target, "its comments are no longer readable")
		}
	}
	if notes == nil {
		return threads, nil
	}
	maps.Copy(notes, threads)
	return notes, nil
}

// readNotes reads xl/comments1.xml (ECMA-376 part 1, 18.7).
func readNotes(data []byte, notes *map[Place]string) error {
	var list struct {
		Comments []struct {
			Cell string   `xml:"ref,attr"`
			Text []string `xml:"text>t"`
			Runs []string `xml:"text>r>t"`
		} `xml:"commentList>comment"`
	}
	if err := xml.Unmarshal(data, &list); err != nil {
		return err
	}
	for _, note := range list.Comments {
		addComment(notes, note.Cell, strings.Join(note.Text, "")+strings.Join(note.Runs, ""))
	}
	return nil
}

// readThreads reads xl/threadedComments/threadedComment1.xml ([MS-XLSX] 2.6.205): every answer is a comment of its own.
func readThreads(data []byte, threads *map[Place]string) error {
	var list struct {
		Comments []struct {
			Cell string `xml:"ref,attr"`
			Text string `xml:"text"`
		} `xml:"threadedComment"`
	}
	if err := xml.Unmarshal(data, &list); err != nil {
		return err
	}
	for _, comment := range list.Comments {
		addComment(threads, comment.Cell, comment.Text)
	}
	return nil
}

func addComment(comments *map[Place]string, cell, text string) {
	column, row, ok := address.Parse(cell)
	if text = strings.TrimSpace(text); !ok || text == "" {
		return
	}
	at := Place{column, row}
	if *comments == nil {
		*comments = map[Place]string{}
	}
	if earlier := (*comments)[at]; earlier != "" {
		text = earlier + "; " + text
	}
	(*comments)[at] = text
}
