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
	for _, title := range []string{"Prairie Notch Junior Stock Contest 2025", "Killed 8/5/2025 at Low Ridge Locker"} {
		about.readName(title)
	}
	if want := (About{Fair: "Prairie Notch Junior Stock Contest 2025", Date: "2025-08-05", Plant: "Low Ridge Locker"}); about != want {
		t.Errorf("read %+v, want %+v", about, want)
	}
	about = About{}
	about.readName("Harvested at Low Ridge Locker on Aug. 5 2025")
	if want := (About{Date: "2025-08-05", Plant: "Low Ridge Locker"}); about != want {
		t.Errorf("read %+v, want %+v", about, want)
	}
	about = About{}
	for _, title := range []string{"CLASS 1 - LIGHT STEERS", "Fair weights, lb", "hot carcass weights in lb", "Judge the heifers last", "Junior beef carcass contest", "Killed last of all"} {
		about.readName(title)
	}
	if about.Fair != "" || about.Plant != "" || about.Judge != "" {
		t.Errorf("nothing says the fair, and %+v was read", about)
	}
}
