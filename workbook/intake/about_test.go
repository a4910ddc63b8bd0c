package intake

import "testing"

// Titles as offices write them; every name is invented.
func TestTitlesSayWhichFairItIs(t *testing.T) {
	var about About
	for _, title := range []string{
		"QUILLSTONE LOCKER & MEATS", "Tamberly County Junior Fair - beef carcass contest", "Killed Tue 8/19/2025 - ribbed Thu 8/21/2025",
		"Judged by Hedda Quince", "Other County Fair",
	} {
		about.readName(title)
	}
	want := About{Fair: "Tamberly County Junior Fair", Date: "2025-08-19", Judge: "Hedda Quince", Plant: "QUILLSTONE LOCKER & MEATS"}
	if about != want {
		t.Errorf("read %+v, want %+v", about, want)
	}
	about = About{}
	for _, title := range []string{"CLASS 1 - LIGHT STEERS", "Fair weights, lb", "hot carcass weights in lb", "Judge the heifers last"} {
		about.readName(title)
	}
	if about.Fair != "" || about.Plant != "" || about.Judge != "" {
		t.Errorf("nothing says the fair, and %+v was read", about)
	}
}
