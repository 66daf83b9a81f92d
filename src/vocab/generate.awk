# Turns grammar/vocabulary.tsv into C: with -v part=ids the enums, with
# -v part=table the constant tables and the hash index over all spellings.
# Column 1 is the class, 2 the uniform name, 3 the other spellings (the first
# of them is the short one), 4 what it belongs to, 5 its attributes.

BEGIN {
	FS = "\t"
	rows = nclasses = nsp = 0
	for (i = 0; i < 256; i++)
		ord[sprintf("%c", i)] = i
}

function fail(text) {
	printf "vocabulary.tsv:%d: %s\n", FNR, text > "/dev/stderr"
	failed = 1
	exit 1
}

function ident(text) {
	gsub(/[^A-Za-z0-9]/, "_", text)
	return toupper(text)
}

# The value of attribute KEY of row I: "1" for a bare word, "" if it is absent.
function attr(i, key,    n, k, part, eq) {
	n = split(attrs[i], part, " ")
	for (k = 1; k <= n; k++) {
		if (part[k] == key)
			return "1"
		eq = index(part[k], "=")
		if (eq && substr(part[k], 1, eq - 1) == key)
			return substr(part[k], eq + 1)
	}
	return ""
}

function add_class(class) {
	if (class in class_rows)
		return
	classes[nclasses++] = class
	class_rows[class] = 0
}

FNR == 1 { next }
NF < 2 { fail("a row needs a class and a name") }
{
	add_class($1)
	n = rows++
	class[n] = $1
	name[n] = $2
	spellings[n] = $3
	of[n] = $4
	attrs[n] = $5
	within[n] = class_rows[$1]++
	if (length($2) > longest)
		longest = length($2)
	if (($1, $2, $1 == "measurement" ? $4 : "") in seen)
		fail("twice in class " $1 ": " $2)
	seen[$1, $2, $1 == "measurement" ? $4 : ""] = n
	id[$1, $2] = within[n]
}

function enum_name(i) {
	if (class[i] == "measurement")
		return "VOCAB_MEASUREMENT_" ident(of[i]) "_" ident(name[i])
	return "VOCAB_" ident(class[i]) "_" ident(name[i])
}

function print_ids(    c, i) {
	print "/* Generated from grammar/vocabulary.tsv. */"
	print "#ifndef VOCAB_IDS_H\n#define VOCAB_IDS_H\n"
	print "enum vocab_class {"
	for (c = 0; c < nclasses; c++)
		printf "\tVOCAB_CLASS_%s,\n", ident(classes[c])
	print "\tVOCAB_CLASSES\n};\n"
	for (c = 0; c < nclasses; c++) {
		printf "enum vocab_%s_id {\n", tolower(ident(classes[c]))
		for (i = 0; i < rows; i++)
			if (class[i] == classes[c])
				printf "\t%s,\n", enum_name(i)
		printf "\tVOCAB_%s_COUNT\n};\n\n", ident(classes[c])
	}
	# Room for the longest name and its NUL, in whole words.
	printf "enum { VOCAB_NAME_SIZE = %d };\n\n", \
	    8 * int((longest + 8) / 8)
	print "#endif"
}

# The same function as vocab_hash() in vocab.c.
function hash(text,    h, i) {
	h = 7
	for (i = 1; i <= length(text); i++)
		h = (h * 33 + ord[substr(text, i, 1)]) % 65536
	return h
}

function add_spelling(row, text,    low, n, word) {
	if (text == "")
		return
	low = tolower(text)
	sp_text[nsp] = low
	sp_row[nsp] = row
	nsp++
	n = split(low, word, " ")
	if (n > phrase[word[1]])
		phrase[word[1]] = n
}

function digit_id(text) {
	return (("digit", text) in id) ? id["digit", text] : -1
}

function digit_part(i,    part) {
	if (of[i] == "")
		return -1
	part = name[i]
	sub(/^[^ ]* /, "", part)
	return id["digit-joint", part]
}

function region_of(i) {
	return "VOCAB_REGION_" toupper(attr(i, "region"))
}

# The joints of a group, as the bits of an integer written in hex.
function member_bits(i,    n, k, j, want, bits, sub_row) {
	split("", bit)
	mark_members(of[i])
	bits = ""
	for (j = 0; j < rows; j++)
		if (class[j] == "joint" && (j in bit))
			bits = bits (bits == "" ? "" : " | ") \
			    "UINT64_C(1) << " within[j]
	return bits
}

function mark_members(list,    part, n, k, j) {
	n = split(list, part, ",")
	for (k = 1; k <= n; k++) {
		for (j = 0; j < rows; j++)
			if (class[j] == "joint" && \
			    (name[j] == part[k] || of[j] == part[k]))
				bit[j] = 1
		if (part[k] != "foot" && ("group", part[k], "") in seen)
			mark_members(of[seen["group", part[k], ""]])
	}
}

# Each measurement carries the mask of the setting families that it has.
function setting_bits(i,    part, n, k, out) {
	n = split(attr(i, "settings"), part, ",")
	out = "0"
	for (k = 1; k <= n; k++) {
		if (("setting", part[k]) in id)
			out = out " | VOCAB_SETTING_BIT(" \
			    id["setting", part[k]] ")"
		else if (("setting-angle", part[k]) in id)
			out = out " | VOCAB_ANGLE_BIT(" \
			    id["setting-angle", part[k]] ")"
		else if (("setting-part", part[k]) in id)
			out = out " | VOCAB_PART_BIT(" \
			    id["setting-part", part[k]] ")"
		else
			fail("no such setting: " part[k])
	}
	return out
}

function print_measurement(i,    opp, joint, owner) {
	opp = attr(i, "opposite")
	gsub(/_/, " ", opp)
	owner = -1
	if (("joint", of[i]) in id)
		joint = id["joint", of[i]]
	else {
		joint = -1
		owner = digit_id(of[i])
		if (owner < 0)
			fail("no such joint: " of[i])
	}
	printf "\t{\"%s\", \"%s\", %d, %d, %d, %d, %d, %d, ", \
	    of[i], name[i], length(of[i]), length(name[i]), joint, owner, \
	    (("motion", name[i]) in id) ? id["motion", name[i]] : -1, \
	    (("measure", name[i]) in id) ? id["measure", name[i]] : -1
	printf "%d, VOCAB_IN_%s, %s, %s, %s, %s, %s},\n", \
	    opp == "" ? -1 : within[seen["measurement", opp, of[i]]], \
	    ident(attr(i, "unit")), \
	    attr(i, "sides") == "RL" ? "true" : "false", \
	    attr(i, "directed") ? "true" : "false", \
	    attr(i, "lacks") ? "true" : "false", \
	    attr(i, "less-is-better") ? "true" : "false", setting_bits(i)
}

function print_table(    i, k, n, part, slot, size, r) {
	print "/* Generated from grammar/vocabulary.tsv. */"
	print "#include \"vocab/table.h\"\n"
	for (i = 0; i < rows; i++) {
		if (class[i] == "measurement")
			continue
		add_spelling(i, name[i])
		n = split(spellings[i], part, ",")
		for (k = 1; k <= n; k++)
			add_spelling(i, part[k])
	}
	# The first word of a phrase is found even where it is no spelling.
	for (i = nsp - 1; i >= 0; i--)
		known[sp_text[i]] = 1
	for (i = nsp - 1; i >= 0; i--) {
		split(sp_text[i], part, " ")
		if (!(part[1] in known)) {
			known[part[1]] = 1
			sp_text[nsp] = part[1]
			sp_row[nsp++] = 65535
		}
	}

	print "const struct vocab_row vocab_rows[] = {"
	for (i = 0; i < rows; i++) {
		split(spellings[i], part, ",")
		printf "\t{VOCAB_CLASS_%s, %d, %d, \"%s\", \"%s\"},\n", \
		    ident(class[i]), within[i], length(name[i]), name[i], \
		    part[1] == "" ? name[i] : part[1]
	}
	printf "};\nconst size_t vocab_row_count = %d;\n\n", rows

	print "const uint16_t vocab_class_first[] = {"
	for (k = 0; k < nclasses; k++)
		for (i = 0; i < rows; i++)
			if (class[i] == classes[k]) {
				printf "\t%d,\n", i
				break
			}
	print "};\n"

	print "const struct vocab_joint vocab_joints[] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "joint")
			printf "\t{\"%s\", %d, %d, %s, %s},\n", name[i], \
			    digit_id(of[i]), digit_part(i), region_of(i), \
			    attr(i, "hinge") ? "true" : "false"
	print "};\n\nconst struct vocab_measurement vocab_measurements[] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "measurement")
			print_measurement(i)
	print "};\n\n_Static_assert(VOCAB_MEASUREMENT_COUNT < 256, " \
	    "\"a measurement takes a byte\");\n"
	print "const uint8_t vocab_joint_motion[VOCAB_JOINT_COUNT]" \
	    "[VOCAB_MOTION_COUNT] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "measurement" && ("joint", of[i]) in id && \
		    ("motion", name[i]) in id)
			printf "\t[%d][%d] = %d,\n", id["joint", of[i]], \
			    id["motion", name[i]], within[i] + 1
	print "};\n\nconst uint64_t vocab_group_joints[] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "group")
			printf "\t%s,\n", member_bits(i)
	print "};\n\nconst bool vocab_end_feel_abnormal[] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "end-feel")
			printf "\t%s,\n", \
			    attr(i, "abnormal") ? "true" : "false"
	print "};\n\nconst bool vocab_instrument_linear[] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "instrument")
			printf "\t%s,\n", \
			    attr(i, "measures") == "length" ? "true" : "false"
	print "};\n\nconst enum vocab_scope vocab_header_scope[] = {"
	for (i = 0; i < rows; i++)
		if (class[i] == "header")
			printf "\tVOCAB_SCOPE_%s,\n", \
			    toupper(attr(i, "scope"))
	print "};\n"

	# Spellings of one text stand side by side, so that a look-up returns
	# a run; the index is a hash table with linear probing.
	size = 4096
	print "const struct vocab_spelling vocab_spellings[] = {"
	m = 0
	for (i = 0; i < nsp; i++) {
		if (done[i])
			continue
		first = m
		same = 0
		for (k = i; k < nsp; k++)
			same += sp_text[k] == sp_text[i] && sp_row[k] != 65535
		for (k = i; k < nsp; k++)
			if (sp_text[k] == sp_text[i]) {
				done[k] = 1
				printf "\t{\"%s\", %d, %d, %d, %d},\n", \
				    sp_text[k], length(sp_text[k]), \
				    phrase[sp_text[k]] + 0, sp_row[k], \
				    same ? same-- : 0
				m++
			}
		slot = hash(sp_text[i]) % size
		while (slot in index_at)
			slot = (slot + 1) % size
		index_at[slot] = first + 1
	}
	printf "};\nconst size_t vocab_spelling_count = %d;\n\n", m
	printf "const uint16_t vocab_index[%d] = {", size
	for (i = 0; i < size; i++)
		printf "%s%d,", i % 12 ? " " : "\n\t", index_at[i] + 0
	print "\n};"
}

END {
	if (failed)
		exit 1
	if (part == "ids")
		print_ids()
	else
		print_table()
}
