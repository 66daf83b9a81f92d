# What an editor shows, in the groups of build-aux/editors.awk: every editor
# has names of its own. Neighbours of one group are one run; blanks that have
# no colour are left out.

BEGIN {
	FS = OFS = "\t"
	same["by"] = same["sex"] = "word"
	same["bydate"] = "date"
	same["mode-word"] = "mode"
	same["number-sign"] = same["comment-delimiter-face"] = "comment"
	same["comment-face"] = "comment"
	same["string-face"] = "text"
	same["source"] = same[""] = "plain"
}

function put() {
	sub(/^[ \t\r]+/, "", text)
	sub(/[ \t\r]+$/, "", text)
	if (text != "")
		print line, group, text
}

{
	name = tolower($2)
	sub(/^rangeline-?/, "", name)
	sub(/^font-lock-/, "", name)
	if (name ~ /[.]rangeline$/) {
		n = split(name, part, ".")
		name = part[n - 1]
	}
	if (name in same)
		name = same[name]
	if ($1 != line || name != group) {
		put()
		text = ""
	}
	line = $1
	group = name
	text = text $3
}
END { put() }
