package writing

import (
	"railbook/grading"
	"railbook/rules"
)

// columnWords explain a column to whoever fills it in.
type columnWords struct {
	what    string // what to measure or mark
	how     string // where, and with what
	example string
}

// prompt is what is shown when a cell of the column is selected.
func (w columnWords) prompt() string {
	words := w.what
	if w.how != "" {
		words += " " + w.how
	}
	if w.example != "" {
		words += " Example: " + w.example
	}
	return words
}

// guideOf gives the words of a column; none for what only goes along from the roster.
func (p *railPage) guideOf(column railColumn) columnWords {
	if column.dots {
		return columnWords{
			"Dots of the grid that lie on the muscle of one side.",
			"Lay the clear grid on the cut face and count. The area beside it comes by itself: the dots over the dots in a square inch. Leave blank where the area is known.",
			dotsExample[p.kind.Species],
		}
	}
	words, own := speciesColumnWords[p.kind.Species][column.measure]
	if !own {
		words = generalColumnWords[column.measure]
	}
	if scan, scanned := scanColumnWords[column.measure]; scanned && p.kind.Basis == rules.LiveScan {
		words.what, words.how = scan.what, scan.how
		if scan.example != "" {
			words.example = scan.example
		}
	}
	return words
}

var dotsExample = map[rules.Species]string{rules.Beef: "136", rules.Swine: "66", rules.Lamb: "27", rules.Goat: "15"}

// Where and how each measure is taken: BIF Guidelines and SDSU Extension for beef, pork carcass evaluation procedures for
// hogs, U.S. standards 1992 for lambs; the rest is common practice.
var generalColumnWords = map[rules.Measure]columnWords{
	rules.RailNumber: {"The plant's own number of the carcass.", "From the hook or gambrel. It helps to find the carcass again.", "118"},
	rules.Tag:        {"The fair's tag of the animal.", "Compare it with the tag on the carcass. Keep zeros in front. A carcass that is not listed goes on an empty line.", "0413"},
	rules.ClassName:  {"The class it was entered in.", "From the roster.", "Light steers"},
	rules.Exhibitor:  {"Who showed it.", "From the roster.", ""},
	rules.LiveWeight: {"Weight of the live animal at the plant.", "On the plant's scale, off the truck. Leave blank where it was not weighed.", "1250"},
	rules.HotCarcassWeight: {
		"Weight of the whole carcass, both sides.", "On the rail scale. Whether hot or chilled is said once, above the headings.", "780",
	},
	rules.InternalFat: {
		"Fat around kidneys, pelvis and heart, as a percent of the carcass.", "Judged to the half percent. 0 only where it was pulled out before weighing; blank where nobody judged it.", "2.5",
	},
	rules.Marbling:     {"Flecks of fat in the ribeye: the degree and the place in it.", "On the cut face, after it has bloomed. Choose from the list, or write a number of hundreds.", "Small 40, or 440"},
	rules.Maturity:     {"How old the carcass looks in bone and lean: a letter and the place in it.", "Buttons of the backbone, ribs, color of the lean.", "A60"},
	rules.DarkCutter:   {"Lean that stayed dark.", "On the cut face.", "yes"},
	rules.Hardbone:     {"Bone of maturity C or older.", "Buttons of the backbone.", "yes"},
	rules.DairyType:    {"A carcass of dairy type.", "By its shape.", "yes"},
	rules.Over30Months: {"Thirty months of age or older.", "By teeth or papers.", "yes"},
	rules.Bullock:      {"A young bull or a stag.", "By the plant or the grader.", "yes"},
	rules.Condemned:    {"Condemned.", "The inspector alone decides.", "yes"},
	rules.Retained:     {"Retained for a second look.", "The inspector alone decides.", "yes"},
	rules.Trimmed:      {"Trimmed before weighing, so that the weight is not that of the whole carcass. Say in the remarks what was cut off.", "By the plant.", "yes"},
	rules.BloodSplash:  {"Blood spots in the lean.", "On the cut face.", "yes"},
	rules.Remarks:      {"Whatever else should be known.", "Bruises, a side missing, a tag lost.", "left shoulder bruised"},
	rules.FatAdjustment: {
		"What the judge adds to the measured fat, or takes off it with a minus.", "For fat unusual elsewhere or pulled off with the hide. Blank means none.", "-0.10",
	},
}

var speciesColumnWords = map[rules.Species]map[rules.Measure]columnWords{
	rules.Beef: {
		rules.MeasuredFat: {"Fat thickness over the ribeye.", "Between the 12th and 13th rib, three quarters of the way along the ribeye from the chine, with a ruler or probe.", "0.40"},
		rules.RibeyeArea:  {"Area of the ribeye.", "Between the 12th and 13th rib. Type it here, or count dots in the column before.", "13.6"},
	},
	rules.Swine: {
		rules.LiveWeight:       {generalColumnWords[rules.LiveWeight].what, generalColumnWords[rules.LiveWeight].how, "268"},
		rules.HotCarcassWeight: {generalColumnWords[rules.HotCarcassWeight].what, generalColumnWords[rules.HotCarcassWeight].how, "198"},
		rules.ClassName:        {"The class it was entered in.", "From the roster.", "Heavy barrows"},
		grading.TenthRibFat:    {"Fat over the loin, skin included.", "At the tenth rib, three quarters of the way across the loin, with a ruler or probe.", "0.75"},
		grading.LastRibFat:     {"Backfat, skin included.", "At the last rib, on the split midline, with a ruler.", "0.90"},
		grading.LoinMuscleArea: {"Area of the loin muscle, not its depth.", "At the tenth rib. Type it here, or count dots in the column before.", "6.65"},
		grading.MusclingScore:  {"How thickly muscled it is: 1 thin, 2 average, 3 thick.", "By eye, over ham and loin.", "2"},
		grading.LeanColor:      {"Color of the loin: 1 pale to 6 dark.", "On the cut face, beside the color standards.", "3"},
		"pork marbling":        {"Flecks of fat in the loin: 1 least to 6, and 10.", "On the cut face, beside the marbling standards.", "2"},
		grading.Firmness:       {"Firmness of the loin: 1 soft, 2 firm, 3 very firm.", "By hand, on the cut face.", "2"},
		grading.Wetness:        {"Wetness of the loin: 1 watery, 2 moist, 3 dry.", "By eye, on the cut face.", "3"},
	},
	rules.Lamb: {
		rules.LiveWeight:          {generalColumnWords[rules.LiveWeight].what, generalColumnWords[rules.LiveWeight].how, "132"},
		rules.HotCarcassWeight:    {"Weight of the whole carcass.", generalColumnWords[rules.HotCarcassWeight].how, "68"},
		rules.ClassName:           {"The class it was entered in.", "From the roster.", "Market lambs"},
		rules.MeasuredFat:         {"Fat thickness over the ribeye, both sides averaged.", "Between the 12th and 13th rib, at the midpoint of the ribeye, with a ruler or probe.", "0.20"},
		rules.RibeyeArea:          {"Area of the ribeye, both sides averaged.", "Between the 12th and 13th rib. Type it here, or count the dots of one side in the column before.", "2.70"},
		grading.BodyWallThickness: {"Lean, bone and fat of the lower rib together.", "Beyond the ribeye between the 12th and 13th rib; say in the remarks how many inches beyond it.", "0.90"},
		grading.LegScore:          {"Thickness and fullness of the leg: 15 is High Prime, 10 Low Choice, 7 Low Good.", "By eye.", "12"},
		grading.FlankStreaking:    {"Streaks of fat inside the flank: the degree and the place in it.", "Inside the flank, by eye.", "Small 40"},
		grading.Conformation:      {"How thick and full the carcass is built.", "By eye.", "Average Choice"},
		rules.Maturity:            {"A or B, and the place in it.", "Break joint, ribs and color of the flank.", "A60"},
	},
	rules.Goat: {
		rules.LiveWeight:          {generalColumnWords[rules.LiveWeight].what, generalColumnWords[rules.LiveWeight].how, "84"},
		rules.HotCarcassWeight:    {"Weight of the whole carcass.", generalColumnWords[rules.HotCarcassWeight].how, "40"},
		rules.ClassName:           {"The class it was entered in.", "From the roster.", "Light wethers"},
		rules.RibeyeArea:          {"Area of the ribeye (loin eye).", "Between the 12th and 13th rib. Type it here, or count dots in the column before.", "1.55"},
		grading.BodyWallThickness: {"Lean, bone and fat of the lower rib together.", "Beyond the ribeye between the 12th and 13th rib; say in the remarks how many inches beyond it.", "0.45"},
		"selection":               {"How it is built: 1 thick, 2 moderate, 3 thin.", "By eye.", "1"},
	},
}

var scanColumnWords = map[rules.Measure]columnWords{
	rules.LiveWeight:          {"Weight of the live animal on the day of the scan.", "On the chute scale.", ""},
	rules.MeasuredFat:         {"Fat thickness over the ribeye.", "Between the 12th and 13th rib, from the image.", ""},
	rules.RibeyeArea:          {"Area of the ribeye.", "Between the 12th and 13th rib, from the image.", ""},
	rules.IntramuscularFat:    {"Percent of fat within the ribeye.", "From the image, by the scan's own program.", "4.30"},
	rules.InternalFat:         {"Fat around kidneys, pelvis and heart, in percent.", "A scan can't see it: the rulebook's customary figure stands here.", ""},
	rules.Sex:                 {"Barrow or gilt.", "The equation for a live hog needs it.", "gilt"},
	grading.TenthRibFat:       {"Fat over the loin, skin included.", "At the tenth rib, from the image.", "0.75"},
	grading.LoinMuscleArea:    {"Area of the loin muscle.", "At the tenth rib, from the image.", "6.65"},
	grading.BodyWallThickness: {"Lean, bone and fat of the lower rib together.", "From the image.", ""},
}
