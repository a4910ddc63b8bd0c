package parts

import (
	"path"
	"strings"
)

// reachSheets makes the workbook's part point to the sheets the library added where that part stands in another folder
// than xl: the library puts its sheets into xl/worksheets and names them as if the workbook stood beside them.
func reachSheets(parts map[string][]byte) error {
	made := &contents{parts: parts}
	main, err := made.mainPart("the results")
	if err != nil || path.Dir(main) == "xl" {
		return err
	}
	relations, err := made.relations(main)
	if err != nil {
		return err
	}
	for _, one := range relations {
		inLibrary := "xl" + strings.TrimPrefix(one.Target, path.Dir(main))
		if parts[one.Target] != nil || parts[inLibrary] == nil {
			continue
		}
		point := func(tag string) string { return withAttribute(tag, "Target", "/"+inLibrary) }
		if err := made.editRelation(main, one.ID, point); err != nil {
			return err
		}
	}
	return nil
}
