# Writes man/rangeline-rules.7 from src/diag/rules.tsv.

BEGIN {
	FS = "\t"
	title["reading"] = "Reading the text"
	title["values"] = "Impossible or doubtful values"
	title["active-passive"] = "Active against passive"
	title["missing"] = "Missing comparisons"
	title["safety"] = "Safety and privacy"
	title["dates"] = "Dates"
	title["acceptance"] = "Acceptances"
	print ".\\\" Written by man/rangeline-rules.awk from src/diag/rules.tsv."
	print ".Dd November 25, 2026"
	print ".Dt RANGELINE-RULES 7"
	print ".Os"
	print ".Sh NAME"
	print ".Nm rangeline-rules"
	print ".Nd what rangeline reports about a note"
	print ".Sh DESCRIPTION"
	print "Each finding of"
	print ".Xr rangeline 1"
	print "names its rule in brackets at the end of the message."
	print ".Ql rangeline rules RULE"
	print "shows one rule with a note in which it is reported and one in"
	print "which it is not."
	print ".Pp"
	print "A finding is an error, a warning or a note;"
	print ".Fl -level Ns = Ns Ar RULE Ns = Ns Ar LEVEL"
	print "changes that."
	print "The comment"
	print ".Ql # accept RULE: reason"
	print "accepts a finding on its line, or alone on a line on the next."
	print "Rules of reading the text can be neither accepted nor lowered: a"
	print "lost reading never goes unsaid."
}

# A cell as a line of mdoc, one sentence a line.
function text(cell) {
	gsub(/\\/, "\\e", cell)
	gsub(/: /, ": ", cell)
	gsub(/\. /, ".\n", cell)
	return cell
}

FNR == 1 { next }

$3 != group {
	if (group != "")
		print ".El"
	group = $3
	print ".Sh " toupper(title[group])
	print ".Bl -tag -width Ds"
}

{
	print ".It Sy " $1 " Pq " $2
	print text(toupper(substr($4, 1, 1)) substr($4, 2)) "."
	print text($5)
	print ".br"
	print "Source: " text($6) "."
}

END {
	print ".El"
	print ".Sh SEE ALSO"
	print ".Xr rangeline 1 ,"
	print ".Xr rangeline 5"
	print ".Sh CAVEATS"
	print "The rules find slips of measuring and writing."
	print "They diagnose nothing."
	print "Licensed practice and local protocols decide what a finding means."
}
