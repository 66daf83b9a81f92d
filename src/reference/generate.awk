# Turns the tables of this folder into C. The vocabulary is read first, for the
# names of measurements and settings, then sources.tsv, then the others in any
# order:
#   awk -f generate.awk vocabulary.tsv sources.tsv limits.tsv ... guide.tsv
# Every cell is checked. A bad row is reported as FILE:LINE, nothing is written
# and the exit status is 1. Works with mawk and gawk under LC_ALL=C.

BEGIN {
	FS = "\t"
	measurements = sources = guides = 0
	heading["sources.tsv"] = "key group choose author year published " \
	    "about mode sex age_lo age_hi people number read"
	heading["limits.tsv"] = "joint motion setting unit usual_upper " \
	    "usual_basis possible_upper possible_basis verified " \
	    "possible_verified lacks_upper lacks_basis"
	heading["usual.tsv"] = "joint motion setting mode sex age_lo age_hi " \
	    "value spread source where_read verified"
	heading["end_feel.tsv"] = "joint motion setting end_feels source " \
	    "where_read verified"
	heading["functional.tsv"] = "joint motion setting kind value spread " \
	    "task source where_read verified"
	heading["error.tsv"] = "region joint motion setting mode rater " \
	    "instrument people what statistic value unit choose source " \
	    "where_read verified"
	heading["guide.tsv"] = "joint motion purpose test_position expose " \
	    "stabilise fulcrum stationary_arm moving_arm landmarks start end " \
	    "substitutions settings do_not write basis"
	of_name["(end less start)"] = "REF_LIMIT_DIFFERENCE"
	of_name["(end as written)"] = "REF_LIMIT_WRITTEN"
	rater_name[""] = "REF_RATER_UNSTATED"
	rater_name["same"] = "REF_RATER_SAME"
	rater_name["different"] = "REF_RATER_DIFFERENT"
	kind_name["arc"] = "REF_ARC"
	kind_name["reach"] = "REF_REACH"
	kind_name["below"] = "REF_BELOW"
	kind_name["posture"] = "REF_POSTURE"
	split("derived,read,from memory,none,own bound", list, ",")
	for (i in list)
		seen_how[list[i]] = 1
}

function bad(text) {
	printf "%s:%d: %s\n", FILENAME, FNR, text > "/dev/stderr"
	failed = 1
}

function ident(text) {
	gsub(/[^A-Za-z0-9]/, "_", text)
	return toupper(text)
}

function quoted(text) {
	gsub(/\\/, "\\\\", text)
	gsub(/"/, "\\\"", text)
	gsub(/\?\?/, "?\\?", text)
	return "\"" text "\""
}

function cell(name) {
	return $(column[name])
}

function cell_text(name) {
	return quoted(cell(name))
}

# ---- the vocabulary

function attr(text, key,    n, k, part, eq) {
	n = split(text, part, " ")
	for (k = 1; k <= n; k++) {
		eq = index(part[k], "=")
		if (eq && substr(part[k], 1, eq - 1) == key)
			return substr(part[k], eq + 1)
	}
	return ""
}

function read_vocabulary() {
	if (FNR == 1)
		return
	word[$1, $2] = 1
	if ($1 == "joint")
		region[$2] = attr($5, "region")
	if ($1 != "measurement")
		return
	at[$4, $2] = measurements
	joint_of[measurements] = $4
	unit_of[measurements] = attr($5, "unit")
	families[measurements] = "," attr($5, "settings") ","
	enum[measurements] = "VOCAB_MEASUREMENT_" ident($4) "_" ident($2)
	measurements++
}

# ---- cells

# The C name of word TEXT of CLASS, -1 for an empty cell.
function word_id(class, text) {
	if (text == "")
		return -1
	if (!((class, text) in word)) {
		bad("no such " class ": " text)
		return -1
	}
	return "VOCAB_" ident(class) "_" ident(text)
}

function is_angle(text) {
	return text ~ /^(0|[1-9][0-9]*)$/ && text + 0 <= 180
}

# The family of one setting word, "" where it is none.
function family(text,    n, part) {
	if (("setting", text) in word)
		return text
	n = split(text, part, "-")
	if (n == 2 && ("setting-angle", part[1]) in word && is_angle(part[2]))
		return part[1]
	if ((n == 2 || (n == 3 && is_angle(part[3]))) && \
	    (("setting-part", part[1]) in word) && \
	    (("setting-state", part[2]) in word))
		return part[1]
	return ""
}

# Reads the setting cell; its words must be sorted, as those of a reading are.
function setting(m,    n, k, part, text) {
	text = cell("setting")
	n = split(text, part, " ")
	for (k = 1; k <= n; k++) {
		if (family(part[k]) == "")
			bad("no such setting: " part[k])
		else if (!index(families[m], "," family(part[k]) ","))
			bad("not a setting of " enum[m] ": " part[k])
		if (k > 1 && part[k - 1] "" >= part[k] "")
			bad("settings not sorted: " text)
	}
	return quoted(text)
}

# A figure of at most one decimal in tenths; no leading zero, no sign.
function tenths(text,    part) {
	if (text !~ /^(0|[1-9][0-9]*)(\.[0-9])?$/) {
		bad("no such figure: " text)
		return 0
	}
	split(text, part, ".")
	return part[1] * 10 + part[2]
}

function signed(text) {
	return text ~ /^-/ ? -tenths(substr(text, 2)) : tenths(text)
}

function bound(name) {
	return cell(name) == "" ? -1 : tenths(cell(name))
}

# N, N-N, and with a mark before it: sets low, high and mark.
function read_value(text, marks,    part) {
	mark = ""
	if (match(text, /^(>=|<|\+\/-)/)) {
		mark = substr(text, 1, RLENGTH)
		text = substr(text, RLENGTH + 1)
		if (!index(marks, mark))
			bad("no such value: " mark text)
	}
	if (split(text, part, " to ") == 2) {
		low = signed(part[1])
		high = signed(part[2])
		if (!index(marks, " to "))
			bad("no such value: " text)
	} else if (mark == "" && split(text, part, "-") == 2) {
		low = tenths(part[1])
		high = tenths(part[2])
	} else
		low = high = tenths(text)
	if (low > high || (low == high && text ~ /.-/))
		bad("low end not below high end: " text)
}

function age(name) {
	if (cell(name) == "")
		return -1
	if (cell(name) !~ /^(0|[1-9][0-9]*)$/ || cell(name) + 0 > 120)
		bad("no such age: " cell(name))
	return cell(name) + 0
}

function check_spread(text) {
	if (text == "" || text ~ /^sd [0-9]+(\.[0-9])?$/)
		return
	if (text !~ /^ci [0-9]+(\.[0-9])?-[0-9]+(\.[0-9])?$/)
		bad("no such spread: " text)
}

function check_source(key) {
	if (!(key in source_at))
		bad("no such source: " key)
}

function check_verified(text) {
	if (text != "yes" && text != "from memory" && text != "own rule")
		bad("verified is yes or from memory: " text)
}

# A row that tells what it was, where it was read and how far.
function check_origin() {
	check_source(cell("source"))
	check_verified(cell("verified"))
	if (cell("where_read") == "")
		bad("where was it read?")
}

# Sets ids[1 .. n] to the measurements of the joint and motion cells.
function measured(    nj, nm, j, m, joint, motion, n) {
	nj = split(cell("joint"), joint, ",")
	nm = split(cell("motion"), motion, ",")
	if (!nj || !nm)
		bad("joint and motion may not be empty")
	n = 0
	for (j = 1; j <= nj; j++)
		for (m = 1; m <= nm; m++)
			if ((joint[j], motion[m]) in at)
				ids[++n] = at[joint[j], motion[m]]
			else
				bad("no such measurement: " joint[j] " " \
				    motion[m])
	return n
}

# Keeps the C text LINE of TABLE under measurement M.
function keep(table, m, line) {
	kept[table, m] = kept[table, m] "\t{" line "},\n"
	kept_n[table, m]++
}

function only_once(table, m, key) {
	if ((table, m, key) in once)
		bad("twice: " enum[m] " " key)
	once[table, m, key] = 1
}

# ---- the tables

function read_source() {
	if (cell("key") == "" || cell("read") == "")
		bad("a source needs a key and how it was read")
	if (cell("key") in source_at)
		bad("twice: " cell("key"))
	if (cell("choose") != "default" && cell("choose") != "asked")
		bad("choose is default or asked: " cell("choose"))
	source_at[cell("key")] = sources
	people_of[cell("key")] = cell("people")
	source_line[sources++] = cell_text("key") ", " cell_text("group") \
	    ", " cell_text("author") ", " cell_text("year") ", " \
	    cell_text("published") ", " cell_text("about") ", " \
	    cell_text("people") ", " cell_text("number") ", " \
	    cell_text("read") ", " word_id("mode", cell("mode")) ", " \
	    word_id("sex", cell("sex")) ", " age("age_lo") ", " \
	    age("age_hi") ", " (cell("choose") == "asked" ? "true" : "false")
}

function read_limit(    n, k, m, of, text, unit) {
	n = measured()
	for (k = 1; k <= n; k++) {
		m = ids[k]
		of = "REF_LIMIT_VALUE"
		text = "\"\""
		if (cell("setting") in of_name)
			of = of_name[cell("setting")]
		else
			text = setting(m)
		unit = cell("unit") == "mm" ? "length" : cell("unit")
		if (unit != unit_of[m])
			bad("the unit of " enum[m] " is " unit_of[m])
		if (!(cell("verified") in seen_how) || \
		    !(cell("possible_verified") in seen_how))
			bad("no such word for how it was seen")
		only_once("limit", m, cell("setting"))
		if (cell("usual_upper") != "" && \
		    cell("possible_upper") != "" && \
		    bound("usual_upper") > bound("possible_upper"))
			bad("more is usual than is possible")
		keep("limit", m, of ", " bound("usual_upper") ", " \
		    bound("possible_upper") ", " bound("lacks_upper") ", " \
		    text ", " cell_text("usual_basis") ", " \
		    cell_text("possible_basis") ", " \
		    cell_text("lacks_basis") ", " cell_text("verified") \
		    ", " cell_text("possible_verified"))
	}
}

# "women 20-44, passive". load.c says the same of a site's rows.
function population(key,    lo, hi, who, text) {
	lo = age("age_lo")
	hi = age("age_hi")
	who = "people"
	if (cell("sex") == "F")
		who = lo >= 18 ? "women" : (hi >= 0 && hi < 18 ? "girls" : \
		    "females")
	else if (cell("sex") == "M")
		who = lo >= 18 ? "men" : (hi >= 0 && hi < 18 ? "boys" : \
		    "males")
	else if (cell("sex") == "X")
		who = "people of sex X"
	if (lo >= 0 && hi >= 0)
		text = who " " lo "-" hi
	else if (lo >= 0)
		text = who " " lo " and over"
	else if (hi >= 0)
		text = who " up to " hi
	else if (cell("sex") != "")
		text = who
	else if (people_of[key] != "")
		text = people_of[key]
	else
		text = "the source gives no age or sex"
	return cell("mode") == "" ? text : text ", " cell("mode")
}

function read_usual(    n, k, m, key) {
	n = measured()
	check_origin()
	check_spread(cell("spread"))
	read_value(cell("value"), ">=")
	if (age("age_hi") >= 0 && age("age_lo") > age("age_hi"))
		bad("the ages are the wrong way round")
	key = cell("source")
	has_usual[key] = 1
	for (k = 1; k <= n; k++) {
		m = ids[k]
		if (unit_of[m] == "level")
			bad("a level has no figure")
		only_once("usual", m, cell("setting") "|" cell("mode") "|" \
		    cell("sex") "|" cell("age_lo") "|" cell("age_hi") "|" \
		    key "|" cell("value"))
		keep("usual", m, enum[m] ", " word_id("mode", cell("mode")) \
		    ", " word_id("sex", cell("sex")) ", " age("age_lo") ", " \
		    age("age_hi") ", " low ", " high ", " \
		    (mark == ">=" ? "true" : "false") ", " \
		    source_at[key] + 0 ", " setting(m) ", " \
		    cell_text("spread") ", " quoted(key) ", " \
		    quoted(population(key)) ", " cell_text("where_read") \
		    ", " cell_text("verified"))
	}
}

# Feels that were read and feels from memory are named apart.
function read_end_feel(    n, k, m, i, count, feel, how) {
	n = measured()
	check_origin()
	count = split(cell("end_feels"), feel, " ")
	if (!count)
		bad("which end feel?")
	how = cell("verified") == "yes" ? "read" : "memory"
	for (k = 1; k <= n; k++) {
		m = ids[k]
		setting(m)
		for (i = 1; i <= count; i++) {
			if (!((m, feel[i]) in feel_known))
				feels[m, how] = feels[m, how] \
				    (feels[m, how] == "" ? "" : " ") feel[i]
			feel_known[m, feel[i]] = 1
			word_id("end-feel", feel[i])
		}
		feel_source[m] = cell("source")
	}
}

function end_feel_line(m,    n, k, feel, bits, text) {
	n = split(feels[m, "read"] " " feels[m, "memory"], feel, " ")
	if (!n)
		return "0, 0"
	for (k = 1; k <= n; k++)
		bits = bits (k > 1 ? " | " : "") "1u << VOCAB_END_FEEL_" \
		    ident(feel[k])
	text = feel_source[m]
	if (feels[m, "read"] == "")
		text = text ", from memory"
	else if (feels[m, "memory"] != "") {
		text = text "; " feels[m, "memory"] " from memory"
	}
	return bits ", " quoted(text)
}

function read_functional(    n, k, m) {
	n = measured()
	check_origin()
	check_spread(cell("spread"))
	if (!(cell("kind") in kind_name))
		bad("no such kind: " cell("kind"))
	read_value(cell("value"), "<")
	if ((mark == "<") != (cell("kind") == "below"))
		bad("kind and value disagree")
	if (cell("kind") == "arc" && low == high)
		bad("an arc has two ends")
	for (k = 1; k <= n; k++) {
		m = ids[k]
		keep("functional", m, kind_name[cell("kind")] ", " low ", " \
		    high ", " setting(m) ", " cell_text("spread") ", " \
		    cell_text("task") ", " cell_text("source") ", " \
		    cell_text("where_read") ", " cell_text("verified"))
	}
}

# The measurements of a row of error.tsv: of a region, or of joints, all their
# motions where it names none. Sets ids; the unit must be that of the row.
function error_ids(unit,    n, m, k, nj, joint, wanted) {
	if (cell("region") == "" && cell("motion") != "")
		return measured()
	if ((cell("region") == "") == (cell("joint") == ""))
		bad("a row has a region or joints")
	if (cell("region") !~ /^(upper|lower|spine|jaw|all|length|)$/)
		bad("no such region: " cell("region"))
	nj = split(cell("joint"), joint, ",")
	for (k = 1; k <= nj; k++) {
		wanted[joint[k]] = 1
		if (!(joint[k] in region))
			bad("no such joint: " joint[k])
	}
	n = 0
	for (m = 0; m < measurements; m++)
		if (unit_of[m] == unit && (cell("region") == "all" || \
		    cell("region") == "length" || \
		    (joint_of[m] in wanted) || (cell("region") != "" && \
		    region[joint_of[m]] == cell("region"))))
			ids[++n] = m
	return n
}

function read_error(    n, k, m, unit, width) {
	unit = cell("unit") == "mm" ? "length" : cell("unit")
	n = error_ids(unit)
	if (!n)
		bad("a row of nothing")
	check_origin()
	read_value(cell("value"), "+/- to ")
	if (!(cell("rater") in rater_name))
		bad("no such rater: " cell("rater"))
	if (cell("choose") != "default" && cell("choose") != "listed")
		bad("choose is default or listed: " cell("choose"))
	# A setting is a measurement of its own: no figure for all readings.
	if (cell("choose") == "default" && (low < 0 || \
	    cell("people") != "" || cell("setting") != ""))
		bad("such a figure can only be listed")
	if (cell("statistic") == "")
		bad("a figure of error needs its statistic")
	width = cell("region") == "" ? "REF_OF_JOINT" : \
	    (cell("region") ~ /^(all|length)$/ ? "REF_OF_ALL" : "REF_OF_LIMB")
	for (k = 1; k <= n; k++) {
		m = ids[k]
		if (unit_of[m] != unit)
			bad("the unit of " enum[m] " is " unit_of[m])
		# The narrower figures stand first.
		keep("error " width, m, width ", " \
		    rater_name[cell("rater")] ", " \
		    word_id("instrument", cell("instrument")) ", " \
		    word_id("mode", cell("mode")) ", " \
		    (cell("choose") == "default" ? "true" : "false") ", " \
		    low ", " high ", " (mark == "+/-" ? "true" : "false") \
		    ", " setting(m) ", " cell_text("people") ", " \
		    cell_text("what") ", " cell_text("statistic") ", " \
		    cell_text("source") ", " cell_text("where_read") ", " \
		    cell_text("verified"))
	}
}

function read_guide(    n, k, i, name, line, part) {
	n = measured()
	k = split(heading["guide.tsv"], name, " ")
	for (i = 1; i <= k; i++)
		line = line (i > 1 ? ", " : "") cell_text(name[i])
	guide_line[guides++] = line
	for (k = 1; k <= n; k++) {
		only_once("guide", ids[k], "")
		guide_at[ids[k]] = guides
	}
}

# ---- input

FNR == 1 {
	file = FILENAME
	sub(/^.*\//, "", file)
	if (file != "vocabulary.tsv") {
		if (!(file in heading))
			bad("not a table of this folder")
		split("", column)
		columns = split(heading[file], names, " ")
		for (i = 1; i <= columns; i++) {
			column[names[i]] = i
			if ($i != names[i])
				bad("column " i " must be " names[i])
		}
		read[file] = 1
		if (NF != columns)
			bad("there must be " columns " columns")
		next
	}
}
file == "vocabulary.tsv" { read_vocabulary(); next }
NF != columns {
	bad("there must be " columns " cells, not " NF)
	next
}
file == "sources.tsv" { read_source() }
file == "limits.tsv" { read_limit() }
file == "usual.tsv" { read_usual() }
file == "end_feel.tsv" { read_end_feel() }
file == "functional.tsv" { read_functional() }
file == "error.tsv" { read_error() }
file == "guide.tsv" { read_guide() }

# ---- output

function print_rows(what, name, tables, first,    m, i, n, part, total) {
	n = split(tables, part, ",")
	printf "const %s %s[] = {\n", what, name
	for (m = 0; m < measurements; m++)
		for (i = 1; i <= n; i++)
			printf "%s", kept[part[i], m]
	printf "};\n\nconst uint16_t %s[REF_FIRST] = {", first
	for (m = 0; m <= measurements; m++) {
		printf "%s%d,", m % 12 ? " " : "\n\t", total + 0
		for (i = 1; i <= n; i++)
			total += kept_n[part[i], m]
	}
	print "\n};\n"
}

function print_plain(what, name, lines, n,    i) {
	printf "const %s %s[] = {\n", what, name
	for (i = 0; i < n; i++)
		printf "\t{%s},\n", lines[i]
	print "};\n"
}

END {
	for (file in heading)
		if (!(file in read)) {
			printf "%s was not given\n", file > "/dev/stderr"
			failed = 1
		}
	if (failed)
		exit 1
	print "/* Generated from the tables of src/reference. */"
	print "#include \"reference/table.h\"\n"
	printf "_Static_assert(VOCAB_MEASUREMENT_COUNT == %d, " \
	    "\"of another vocabulary\");\n\n", measurements
	print_plain("struct ref_source", "ref_sources", source_line, sources)
	printf "const size_t ref_sources_count = %d;\n\n", sources
	print_rows("struct ref_limit_row", "ref_limit_rows", "limit", \
	    "ref_limit_first")
	print_rows("struct ref_usual_row", "ref_usual_table", "usual", \
	    "ref_usual_first")
	print_rows("struct ref_functional", "ref_functional_rows", \
	    "functional", "ref_functional_first")
	print_rows("struct ref_error_row", "ref_error_table", \
	    "error REF_OF_JOINT,error REF_OF_LIMB,error REF_OF_ALL", \
	    "ref_error_first")
	print_plain("struct ref_guide", "ref_guide_rows", guide_line, guides)
	print "const struct ref_end_feel_row ref_end_feel_rows[REF_FIRST] = {"
	for (m = 0; m < measurements; m++)
		printf "\t{%s},\n", end_feel_line(m)
	printf "};\n\nconst uint16_t ref_guide_of[REF_FIRST] = {"
	for (m = 0; m < measurements; m++)
		printf "%s%d,", m % 12 ? " " : "\n\t", guide_at[m] + 0
	print "\n};"
}
