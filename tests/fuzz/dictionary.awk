# Turns grammar/vocabulary.tsv into a dictionary for fuzzers: each spelling of
# each word once, then the signs and forms that are in no table.

BEGIN {
	FS = "\t"
	for (i = 128; i < 256; i++)
		escape[sprintf("%c", i)] = sprintf("\\x%02x", i)
	n = split("0-52|3-0-146|130/0/5|8 to 131|85 less 38|15-21.5 cm" \
	    "|38 mm|131|0-1O4|2026-05-04|2026-02-30|09:30|3/10|abducted-90" \
	    "|# accept off-scale: x|\"text\"|\"|;|,|#|\\x0a|\\x0d\\x0a|\\x09" \
	    "|\\xef\\xbb\\xbf|\\xe2\\x80\\x93|\\xc2\\xb0|\\xff|\\x00", form, "|")
	for (i = 1; i <= n; i++)
		put(form[i])
}

# The signs that a dictionary wants escaped: " and all that is not ASCII. Works
# on bytes, so in the C locale only.
function put(word,    out, i, c) {
	for (i = 1; i <= length(word); i++) {
		c = substr(word, i, 1)
		out = out (c == "\"" ? "\\\"" : c in escape ? escape[c] : c)
	}
	if (out != "" && !(out in seen))
		printf "\"%s\"\n", out
	seen[out] = 1
}

FNR == 1 { next }
{
	n = split($1 == "measurement" ? $2 : $2 "," $3, word, ",")
	for (i = 1; i <= n; i++)
		put(word[i])
}
