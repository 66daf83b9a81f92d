# From `editors.awk -v form=list`: a note with every word of the vocabulary, a
# line each, to NOTE, and how each should be coloured to EXPECTED.

BEGIN { FS = OFS = "\t" }
{
	if ($1 == "header")
		print $2 > note
	else if ($1 == "sex") {
		print "sex " $2 > note
		print NR, "header", "sex" > expected
	} else {
		print "R " $2 > note
		print NR, "side", "R" > expected
	}
	print NR, $1 == "sex" ? "word" : $1, $2 > expected
}
