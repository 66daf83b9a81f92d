# Puts the words of grammar/vocabulary.tsv into the file of an editor: what
# stands between a line with `@words GROUP...` and the next line with `@end`
# is written anew (in JSON, which has no comments, the one line after it), all
# else is kept. So such a file is its own template.
#
# Usage: awk -v form=vim|emacs|json|kate|gtk|nano -f editors.awk \
#            grammar/vocabulary.tsv FILE
#        awk -v form=list -f editors.awk grammar/vocabulary.tsv
#
# A GROUP is what is shown alike. A word of two groups is shown as the one that
# is filled first, since colours cannot know what the rest of the line says;
# only a header, which begins its line, may be a word of another group too. The
# group `setting` is none of words but of `abducted-90` and `knee-bent`.

BEGIN {
	FS = "\t"
	groups = split("header side mode joint motion position outcome " \
	    "word feel number", order, " ")
	of_class["header"] = "header"
	of_class["side"] = of_class["both"] = of_class["side-mode"] = "side"
	of_class["mode"] = "mode"
	of_class["joint"] = of_class["digit"] = "joint"
	of_class["digit-joint"] = of_class["group"] = "joint"
	of_class["motion"] = of_class["measure"] = "motion"
	of_class["posture"] = of_class["setting"] = "position"
	of_class["outcome"] = "outcome"
	of_class["keyword"] = of_class["instrument"] = "word"
	of_class["requirement"] = "word"
	of_class["end-feel"] = of_class["cause"] = "feel"
	of_class["level"] = of_class["unit"] = "number"
	# Shown where they stand alone, by patterns of their own.
	of_class["setting-angle"] = "angle"
	of_class["setting-part"] = "part"
	of_class["setting-state"] = "state"
	of_class["sex"] = "sex"
	of_class["measurement"] = ""
	width = 78
	blank["vim"] = "\\s\\+"
	blank["json"] = "\\\\s+"
	blank["kate"] = blank["gtk"] = "\\s+"
	blank["nano"] = "[[:blank:]]+"
	before["json"] = "(?i)(?<![\\\\w.'-])"
	after["json"] = "(?![\\\\w.'-])"
	before["kate"] = before["gtk"] = "(?&lt;![\\w.'-])"
	after["kate"] = after["gtk"] = "(?![\\w.'-])"
}

function fail(text) {
	print FILENAME ":" FNR ": " text > "/dev/stderr"
	failed = 1
	exit 1
}

# A word of GROUP; a joint of two words (index PIP) is two words of the group.
function add(group, word) {
	if (group == "" || (group, tolower(word)) in seen)
		return
	if (word ~ /[][().*+?^$|\\{}<>&"]/)
		fail("'" word "' would be no word in a pattern")
	seen[group, tolower(word)] = 1
	words[group, count[group]++] = word
}

NR == FNR && FNR > 1 {
	if (!($1 in of_class))
		fail("class " $1 " belongs to no group")
	if ($1 != "joint" || $4 == "")
		add(of_class[$1], $2)
	n = split($3, spelling, ",")
	for (i = 1; i <= n; i++)
		add(of_class[$1], spelling[i])
}
NR == FNR { next }

# The words that are shown as GROUP, longest first, into LIST.
function shown(group, list,    n, i, j, g, word, taken) {
	n = 0
	for (i = 0; i < count[group]; i++) {
		word = words[group, i]
		taken = 0
		for (g = 2; g <= groups && order[g] != group; g++)
			if ((order[g], tolower(word)) in seen)
				taken = 1
		if (taken && group != "header" && is_shared(group))
			continue
		for (j = n++; j > 0 && length(list[j]) < length(word); j--)
			list[j + 1] = list[j]
		list[j + 1] = word
	}
	return n
}

function is_shared(group,    g) {
	for (g = 2; g <= groups; g++)
		if (order[g] == group)
			return 1
	return 0
}

# As it stands in a pattern: any run of blanks between its words.
function escaped(word,    n, i, piece, text) {
	if (!(form in blank))
		return word
	n = split(word, piece, " ")
	for (i = 1; i <= n; i++)
		text = text (i > 1 ? blank[form] : "") piece[i]
	return text
}

# PLURAL: only spellings of several words, or only single ones (0), or all (2).
function chosen(group, plural, list,    all, n, i, m) {
	m = 0
	n = shown(group, all)
	for (i = 1; i <= n; i++)
		if (plural == 2 || (index(all[i], " ") > 0) == plural)
			list[++m] = all[i]
	return m
}

function alternation(list, n,    i, text) {
	for (i = 1; i <= n; i++)
		text = text (i > 1 ? (form == "vim" ? "\\|" : "|") : "") \
		    escaped(list[i])
	if (form == "vim")
		return "\\%(" text "\\)"
	return (form == "nano" ? "(" : "(?:") text ")"
}

function all_of(group,    list, n) {
	n = chosen(group, 2, list)
	return alternation(list, n)
}

# abducted-90, knee-bent, wrist-flexed-20
function setting(    digits, more) {
	if (form == "vim")
		return "\\%(" all_of("angle") "-\\d\\+\\|" all_of("part") "-" \
		    all_of("state") "\\%(-\\d\\+\\)\\=\\)"
	digits = "-[0-9]+"
	more = "(" digits ")?"
	if (form != "nano")
		more = "(?:" digits ")?"
	return (form == "nano" ? "(" : "(?:") all_of("angle") digits "|" \
	    all_of("part") "-" all_of("state") more ")"
}

function within(text, group) {
	if (form == "json" && group == "header")
		return "(?i)^\\\\s*" text after[form]
	if (form == "gtk" && group == "header")
		return "^\\s*" text after[form]
	if (form == "nano" && group == "header")
		return "^[[:blank:]]*" text "\\>"
	if (!(form in before))
		return "\\<" text "\\>"
	return before[form] text after[form]
}

# One line after another of at most WIDTH columns, each with BEFORE in front.
function put_wrapped(before, list, n,    i, line) {
	line = before
	for (i = 1; i <= n; i++) {
		if (length(line) + 1 + length(list[i]) > width &&
		    line != before) {
			print line
			line = before
		}
		line = line (line ~ /[^ ]$/ ? " " : "") list[i]
	}
	if (line != before)
		print line
}

# Vim takes a keyword before any pattern: a word that begins a longer spelling
# or is a header as well is a pattern.
function put_vim(group,    name, list, n, i, keys, nkeys, pats, npats, firsts) {
	name = "rangeline" toupper(substr(group, 1, 1)) substr(group, 2)
	if (group == "setting") {
		print "syn match rangelinePosition /" within(setting()) "/"
		return
	}
	if (group == "header") {
		print "syn match rangelineHeader /^\\s*" all_of(group) "\\>/"
		return
	}
	n = chosen(group, 2, list)
	for (i = 1; i <= n; i++)
		if (list[i] == "by")
			continue # its pattern stands in the file
		else if (list[i] ~ / /)
			pats[++npats] = list[i]
		else if (("header", list[i]) in seen || begins_phrase(list[i]))
			pats[++npats] = list[i]
		else
			keys[++nkeys] = list[i]
	put_wrapped("syn keyword " name, keys, nkeys)
	for (i = npats; i > 0; i--)
		print "syn match " name " /" within(escaped(pats[i])) "/"
}

function begins_phrase(word,    key, part) {
	for (key in words)
		if (index(tolower(words[key]), tolower(word) " ") == 1)
			return 1
	return 0
}

function put_kate(group, plural,    list, n, i) {
	if (group == "setting") {
		print indent "<RegExpr attribute=\"Position\" context=\"#stay\"" \
		    " insensitive=\"true\" String=\"" within(setting()) "\"/>"
		return
	}
	n = chosen(group, plural, list)
	if (plural && n > 0)
		print indent "<RegExpr attribute=\"" toupper(substr(group, 1, 1)) \
		    substr(group, 2) "\" context=\"#stay\" insensitive=\"true\"" \
		    " String=\"" within(alternation(list, n)) "\"/>"
	for (i = 1; i <= n && !plural; i++)
		print indent "<item>" list[i] "</item>"
}

function pattern(group) {
	return within(group == "setting" ? setting() : all_of(group), group)
}

function put(group,    list, n, i) {
	if (group != "setting" && !count[group])
		fail("there is no group " group)
	if (form == "vim") {
		put_vim(group)
	} else if (form == "emacs") {
		n = chosen(group, 2, list)
		for (i = 1; i <= n; i++)
			list[i] = "\"" list[i] "\""
		put_wrapped(indent, list, n)
	} else if (form == "kate") {
		put_kate(group, phrases)
	} else if (form == "gtk") {
		print indent "<match>" pattern(group) "</match>"
	} else if (form == "nano") {
		print "icolor " colour " \"" pattern(group) "\""
	} else if (form == "json") {
		print indent "\"match\": \"" pattern(group) "\","
	}
}

/@(words|phrases) / {
	print
	match($0, /^[ \t]*/)
	indent = substr($0, 1, RLENGTH)
	phrases = $0 ~ /@phrases /
	text = $0
	sub(/.*@(words|phrases) /, "", text)
	sub(/[^a-z ].*/, "", text)
	n = split(text, part, " ")
	colour = part[n]
	if (form == "nano")
		n--
	for (k = 1; k <= n; k++)
		put(part[k])
	skipping = 1
	next
}
skipping && form == "json" { skipping = 0; next }
/@end/ { skipping = 0 }
!skipping

END {
	if (failed)
		exit 1
	if (skipping) {
		print FILENAME ": no @end" > "/dev/stderr"
		exit 1
	}
	if (form != "list")
		exit
	for (g = 1; g <= groups; g++) {
		n = chosen(order[g], 2, list)
		for (i = 1; i <= n; i++)
			print order[g] "\t" list[i]
	}
	print "sex\tF\nsex\tmale\nposition\tabducted-90\nposition\tknee-bent"
	print "position\twrist-flexed-20"
}
