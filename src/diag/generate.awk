# Turns src/diag/rules.tsv into C: with -v part=ids the enum, with
# -v part=table the catalogue. -v examples=DIR names corpus/rules, whose
# reported.range and clean.range of each rule go into the catalogue.

BEGIN { FS = "\t" }

function ident(text) {
	gsub(/[^A-Za-z0-9]/, "_", text)
	return toupper(text)
}

function quoted(text) {
	gsub(/\\/, "\\\\", text)
	gsub(/"/, "\\\"", text)
	gsub(/\t/, "\\t", text)
	gsub(/\r/, "\\r", text)
	return "\"" text "\""
}

function file_text(path,    line, out, status) {
	out = ""
	while ((status = (getline line < path)) > 0)
		out = out "\n\t    " quoted(line) " \"\\n\""
	close(path)
	if (status < 0) {
		printf "rules.tsv:%d: no file %s\n", FNR, path \
		    > "/dev/stderr"
		failed = 1
		exit 1
	}
	return out == "" ? "\"\"" : out
}

FNR == 1 {
	if (part == "ids")
		print "/* Generated from src/diag/rules.tsv. */\n" \
		    "#ifndef RULE_IDS_H\n#define RULE_IDS_H\n\nenum rule {"
	else
		print "/* Generated from src/diag/rules.tsv. */\n" \
		    "#include \"diag/rule.h\"\n\n" \
		    "const struct rule_info rule_table[] = {"
	next
}

NF != 6 {
	printf "rules.tsv:%d: %d columns, not 6\n", FNR, NF > "/dev/stderr"
	failed = 1
	exit 1
}

part == "ids" { printf "\tRULE_%s,\n", ident($1) }
part != "ids" {
	printf "\t{%s, LEVEL_%s, RULES_%s,\n", quoted($1), toupper($2), \
	    ident($3)
	printf "\t    %s,\n\t    %s,\n\t    %s,\n", quoted($4), quoted($5), \
	    quoted($6)
	printf "\t    %s,\n", file_text(examples "/" $1 "/reported.range")
	printf "\t    %s},\n", file_text(examples "/" $1 "/clean.range")
}

END {
	if (failed)
		exit 1
	print part == "ids" ? "\tRULE_COUNT\n};\n\n#endif" : "};"
}
