#!/bin/sh
# The files of grammar/editors in the real editors: what is coloured and how,
# what the editors make of the output of `check`, tidying from within them.
# An editor that is not installed is a failure; Debian has all of them.
#
# Usage: editors.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: editors.sh PROGRAM" >&2
	exit 2
fi
root=$(cd "$(dirname "$0")/.." && pwd) || exit 2
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
work=$(mktemp -d) || exit 2
trap 'tmux -L "$socket" kill-server 2>/dev/null; rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
socket=rangeline-$$
modules=$root/build/node

mkdir "$work/bin" "$work/home" || exit 2
ln -s "$program" "$work/bin/rangeline"
PATH=$work/bin:$PATH
HOME=$work/home
LC_ALL=C.UTF-8
export PATH HOME LC_ALL
unset SOURCE_DATE_EPOCH NO_COLOR XDG_CONFIG_HOME XDG_DATA_HOME
cd "$work" || exit 2

editors=$root/grammar/editors
helpers=$root/tests/editors
evidence="$work/diff"

# same WHAT WANTED GOT: two files that should be alike. An empty one proves
# nothing.
same() {
	{ test -s "$2" || echo "$2 is empty"; diff -u "$2" "$3"; } >"$work/diff" 2>&1
	test ! -s "$work/diff"
	verdict "$1"
}

# there COMMAND...: are they installed?
there() {
	for command; do
		command -v "$command" >/dev/null 2>&1 && continue
		echo "$command is not installed" >"$work/diff"
		false
		verdict "$command"
		return 1
	done
}

# --- The words --------------------------------------------------------------

fill() {
	LC_ALL=C awk -v form="$1" -f "$root/build-aux/editors.awk" "$2" "$3"
}

# With a spelling of a joint more in the vocabulary a file is stale.
"$root/build-aux/fill-editors" --list >files
while read -r form file; do
	fill "$form" "$root/grammar/vocabulary.tsv" "$editors/$file" >fresh
	same "$file has the words of the vocabulary" fresh "$editors/$file"
	sed 's/^joint	shoulder	/&invented joint,/' \
		"$root/grammar/vocabulary.tsv" >grown.tsv
	fill "$form" grown.tsv "$editors/$file" >grown
	grep -q 'invented.*joint' grown && ! cmp -s grown "$editors/$file"
	verdict "$file would be found stale" 2>"$work/diff"
done <files

cp "$helpers/sample.range" sample.range
LC_ALL=C awk -v form=list -f "$root/build-aux/editors.awk" \
	"$root/grammar/vocabulary.tsv" >list
LC_ALL=C awk -v note=words.range -v expected=words.expected \
	-f "$helpers/words.awk" list
for note in "$root"/corpus/valid/*.range; do
	sed -e '1s/^\xef\xbb\xbf//' -e 's/\r$//' "$note"
	echo
done >valid.range
test "$(wc -l <words.range)" -gt 300 && test "$(wc -l <valid.range)" -gt 300
verdict "there are words and notes to try" 2>"$work/diff"

# coloured EDITOR: SHOW wrote sample.raw, words.raw, valid.raw.
coloured() {
	LC_ALL=C awk -f "$helpers/runs.awk" sample.raw >sample.got
	same "$1: the sample" "$helpers/sample.expected" sample.got
	LC_ALL=C awk -f "$helpers/runs.awk" words.raw >words.got
	same "$1: every word of the vocabulary" words.expected words.got
	LC_ALL=C awk -f "$helpers/runs.awk" valid.raw >valid.got
	test "$(wc -l <valid.got)" -gt 1000
	verdict "$1: sound notes are shown"
	LC_ALL=C awk -F '\t' '$2 == "error" || $2 == "plain" && $3 ~ /[A-Za-z0-9"#]/' \
		valid.got >"$work/diff"
	test ! -s "$work/diff"
	verdict "$1: in sound notes all is coloured, and nothing as an error"
	rm -f ./*.raw ./*.got
}

# --- Where findings stand ---------------------------------------------------

# Notes with many findings, under a name with a blank.
cat "$root"/corpus/demo/*.range >'the note.range'
cat "$root"/corpus/broken/lost-side.range \
	"$root"/corpus/broken/bad-headers.range >>'the note.range'
"$program" check --today=2026-06-01 --brief 'the note.range' >findings
sed -n 's/^\([^:]*:[0-9]*:[0-9]*\): .*/\1/p' findings >places
sed 's/^\([^:]*:[0-9]*:[0-9]*: \)\([a-z]\)[a-z]*: /\1\2 /' findings >listed
"$program" tidy 'the note.range' >tidied 2>/dev/null
test "$(wc -l <places)" -gt 20 && ! cmp -s tidied 'the note.range'
verdict "there are findings to show and columns to align" 2>"$work/diff"

# --- Vim and Neovim ---------------------------------------------------------

vi_tests() {
	there "$1" || return
	case $1 in
	vim) set -- vim -N -u NONE -i NONE -es ;;
	nvim) set -- nvim -u NONE -i NONE --headless ;;
	esac
	for note in sample words valid; do
		NOTE=$note.range SHOWN=$note.raw "$@" \
			--cmd "set rtp^=$editors/vim" -c 'syntax on' \
			-S "$helpers/show.vim" >/dev/null 2>&1
	done
	coloured "$1"

	NOTE='the note.range' FOUND=found TIDIED=after KEPT=kept SETTINGS=set \
		"$@" --cmd "set rtp^=$editors/vim" \
		-c 'filetype plugin on' -S "$helpers/make.vim" >/dev/null 2>&1
	same "$1: :make" listed found
	same "$1: gq tidies" tidied after
	same "$1: gq without the program changes nothing" 'the note.range' kept
	printf '# %%s\nrangeline tidy 2>/dev/null\nrangeline\n' >wanted
	same "$1: settings" wanted set
	rm -f found after kept set

	"$program" check --today=2026-06-01 'the note.range' >full
	FOUND=found OUTPUT=full "$@" -S "$helpers/list.vim" >/dev/null 2>&1
	same "$1: the output of check as it is, without any setting" \
		places found
	rm -f found
}
vi_tests vim
vi_tests nvim

# --- Emacs ------------------------------------------------------------------

emacs_tests() {
	there emacs || return
	for note in sample words valid; do
		NOTE=$note.range SHOWN=$note.raw emacs --batch -Q \
			-L "$editors/emacs" -l "$helpers/show.el" >/dev/null 2>&1
	done
	coloured emacs
	cp "$editors/emacs/rangeline-mode.el" .
	emacs --batch -Q --eval '(setq byte-compile-error-on-warn t)' \
		-f batch-byte-compile rangeline-mode.el >"$work/diff" 2>&1
	verdict "emacs: the mode compiles without a warning"

	command="rangeline check --today=2026-06-01 the\\ note.range"
	for term in dumb xterm-256color; do
		TERM=$term COMMAND=$command FOUND=found emacs --batch -Q \
			-l "$helpers/compile.el" >"$work/diff" 2>&1
		same "emacs: the output of check as it is, TERM=$term" \
			places found
		rm -f found
	done
	NOTE='the note.range' COMMAND="$command --color=never" FOUND=found TIDIED=after \
		LAID=laid KEPT=kept emacs --batch -Q -L "$editors/emacs" \
		-l rangeline-mode -l "$helpers/compile.el" >"$work/diff" 2>&1
	same "emacs: M-x compile from the mode" places found
	same "emacs: rangeline-tidy" tidied after
	# shellcheck disable=SC2094
	"$program" summary --stdin-name 'the note.range' \
		<'the note.range' >wanted 2>&1
	same "emacs: rangeline-summary" wanted laid
	same "emacs: without the program nothing is changed" \
		'the note.range' kept
	rm -f found after kept laid

	# A tab counts as one column in the program, as eight on the screen.
	printf 'subject T-1\nsession 2026-05-04\nknee\tR\tA 120-5\n' >tab.range
	"$program" check --brief tab.range |
		sed -n 's/^\([^:]*:[0-9]*:[0-9]*\): .*/\1/p' | uniq >places.tab
	COMMAND='rangeline check --color=never tab.range' FOUND=found \
		emacs --batch -Q -L "$editors/emacs" -l rangeline-mode \
		-l "$helpers/compile.el" >"$work/diff" 2>&1
	same "emacs: columns behind a tab" places.tab found
	rm -f found
}
emacs_tests

# --- nano -------------------------------------------------------------------

# nano_on NOTE KEY...: nano on a wide terminal, then its screen in $work/screen.
nano_on() {
	open=$1
	shift
	tmux -L "$socket" -f /dev/null new-session -d -x 250 -y 700 \
		"TERM=screen-256color nano \
		-f '$editors/nano/rangeline.nanorc' '$open'"
	i=0
	while ! tmux -L "$socket" capture-pane -p | grep -q '\^X Exit'; do
		i=$((i + 1))
		test $i -lt 50 || break
		sleep 0.1
	done
	for key; do
		tmux -L "$socket" send-keys "$key" 2>/dev/null
		sleep 0.5
	done
	tmux -L "$socket" capture-pane -e -p >screen 2>/dev/null
	tmux -L "$socket" kill-server 2>/dev/null
	sleep 0.2
}

# nano has few colours, and patterns that paint over each other: what it must
# show is checked, not how it tells every group apart.
nano_tests() {
	there nano tmux python3 || return
	for note in sample words; do
		nano_on "$note.range"
		n=$(wc -l <"$note.range")
		python3 "$helpers/show_ansi.py" 2 <screen |
			LC_ALL=C awk -F '\t' -v n="$n" '$1 <= n && $3 != ""' |
			LC_ALL=C awk -f "$helpers/runs.awk" >"$note.got"
	done
	sed -e 's/	mode	/	side	/' -e 's/	outcome	/	word	/' \
		-e 's/	position	/	motion	/' words.expected |
		grep -v '[°º]$' >words.wanted
	grep -v '[°º]$' words.got >words.shown
	same "nano: every word of the vocabulary" words.wanted words.shown
	sed -e 's/	mode	/	side	/' -e 's/	outcome	/	word	/' \
		-e 's/	position	/	motion	/' \
		-e '/never closed/d' \
		-e '/	comment	#$/d' -e 's/	accept	.*/	accept	# &:/' \
		-e 's/# .*	accept	/# /' -e 's/	comment	: /	comment	/' \
		"$helpers/sample.expected" >sample.wanted
	sed '/never closed/s/ "never closed$//' sample.got >sample.shown
	same "nano: the sample, but the open quote" sample.wanted sample.shown
	rm -f ./*.got ./*.wanted

	cp 'the note.range' note.range
	nano_on note.range M-B
	"$program" check --brief note.range | sed -n '1s/.*[0-9]: //p' |
		cut -c 1-60 >wanted
	grep -qF "$(cat wanted)" screen
	verdict "nano: the linter shows the first finding" 2>screen
	cp note.range 2 # a file that a lost redirection would tidy as well
	nano_on note.range M-F C-o Enter C-x
	same "nano: the formatter tidies" tidied note.range
	same "nano: the formatter tidies that file alone" 'the note.range' 2
	rm -f 2
	cp 'the note.range' note.range
	mv bin/rangeline bin/away
	printf '#!/bin/sh\nexit 127\n' >bin/rangeline
	chmod +x bin/rangeline
	nano_on note.range M-F C-o Enter C-x
	same "nano: without the program nothing is changed" \
		'the note.range' note.range
	mv -f bin/away bin/rangeline
}
nano_tests

# --- Kate and whatever else reads its files ---------------------------------

kate_tests() {
	there kate-syntax-highlighter xmllint python3 || return
	xmllint --noout "$editors/kate/rangeline.xml" >"$work/diff" 2>&1
	verdict "kate: well-formed"
	folder=$work/kate/org.kde.syntax-highlighting
	mkdir -p "$folder/syntax" "$folder/themes"
	cp "$editors/kate/rangeline.xml" "$folder/syntax/"
	python3 "$helpers/show_html.py" theme >"$folder/themes/each.theme"
	for note in sample words valid; do
		XDG_DATA_HOME=$work/kate QT_QPA_PLATFORM=offscreen \
			kate-syntax-highlighter -t Each "$note.range" \
			2>>complaints | python3 "$helpers/show_html.py" >"$note.raw"
	done
	coloured kate
	cp complaints "$work/diff"
	test ! -s complaints
	verdict "kate: no complaint about the file"
}
kate_tests

# --- GtkSourceView ----------------------------------------------------------

gtk_tests() {
	there xvfb-run xmllint || return
	xmllint --noout --relaxng \
		/usr/share/gtksourceview-4/language-specs/language2.rng \
		"$editors/gtksourceview/rangeline.lang" >"$work/diff" 2>&1
	verdict "gtksourceview: valid by its schema"
	# Debian's Python has the bindings, another one may come before it.
	xvfb-run -a /usr/bin/python3 "$helpers/show_gtk.py" \
		"$editors/gtksourceview" sample.range words.range valid.range \
		2>complaints | LC_ALL=C awk '/^== / { sub(/^== /, "")
			sub(/[.]range$/, ".raw"); file = $0; next }
			{ print >file }'
	coloured gtksourceview
	grep -v 'dconf\|accessibility\|^$' complaints >"$work/diff"
	test ! -s "$work/diff"
	verdict "gtksourceview: no complaint about the file"
}
gtk_tests

# --- VS Code and whatever else reads TextMate grammars ----------------------

vscode_tests() {
	there node npm || return
	if [ ! -d "$modules/node_modules/vscode-languageclient" ]; then
		npm install --silent --no-audit --no-fund --prefix "$modules" \
			vscode-textmate@9 vscode-oniguruma@2 \
			vscode-languageclient@9 >"$work/diff" 2>&1
		verdict "npm installs the engine of the grammar and the client"
	fi
	for note in sample words valid; do
		NODE_PATH=$modules/node_modules node "$helpers/show.js" \
			"$editors/vscode/syntaxes/rangeline.tmLanguage.json" \
			"$note.range" >"$note.raw" 2>"$work/diff"
	done
	coloured vscode
	node "$helpers/vscode.js" "$program" "$editors/vscode" \
		'the note.range' >results 2>&1
	test "$(grep -c '^ok ' results)" -gt 25
	verdict "vscode: the tests of the folder ran"
	while IFS= read -r result; do
		printf '%s\n' "$result" >"$work/diff"
		case $result in
		'ok '*) true ;;
		*) false ;;
		esac
		verdict "vscode"
	done <results

	# The real client and the real server, without the editor around them.
	printf 'subject EX-1\nsession 2026-05-04\nknee R A 5-104 P 5-90\n' \
		>open.range
	"$program" check --brief open.range |
		sed 's/^\([^ ]*\): .*\[\(.*\)\]$/\1:\2/' >places.open
	NODE_PATH=$modules/node_modules node "$helpers/client.js" \
		"$editors/vscode" open.range >found 2>"$work/diff"
	cat "$work/diff" >&2
	same "vscode: the client shows what the server finds" places.open found
	rm -f found
}
vscode_tests

# --- Installed ---------------------------------------------------------------

installed_tests() {
	share=$work/prefix/share
	"$root/build-aux/install-editors" install "$share" "$program" \
		>"$work/diff" 2>&1
	verdict "everything can be installed"
	find "$editors" -type f ! -name README.md -exec basename {} \; |
		sort -u >wanted
	find "$share" -type f -exec basename {} \; | sort -u |
		grep -vx 'rangeline\|_rangeline\|rangeline\.fish' >got
	same "no file of grammar/editors is left out" wanted got

	export XDG_DATA_DIRS="$share:/usr/share"
	echo 'subject EX-1' >it.range
	nvim -u NORC -i NONE --headless it.range -c 'set filetype?' -c 'qall!' \
		>shown 2>&1
	grep -q 'filetype=rangeline' shown
	verdict "nvim finds what is installed" 2>"$work/diff"
	vim -N -u NORC -i NONE -es --cmd "set rtp^=$share/vim/vimfiles" \
		-c 'filetype plugin on' -c 'edit it.range' \
		-c 'call writefile([&filetype, &makeprg], "shown")' -c 'qall!'
	grep -q '^rangeline check' shown
	verdict "vim, told the folder, finds what is installed" 2>"$work/diff"
	emacs --batch -Q -L "$share/emacs/site-lisp" -l rangeline-mode \
		--eval '(progn (find-file "it.range") (princ major-mode))' \
		>shown 2>&1
	grep -q 'rangeline-mode' shown
	verdict "emacs, told the mode, finds what is installed" 2>"$work/diff"
	QT_QPA_PLATFORM=offscreen kate-syntax-highlighter --list >shown 2>&1
	grep -q '^Rangeline' shown
	verdict "kate finds what is installed" 2>"$work/diff"
	xvfb-run -a /usr/bin/python3 -c 'import gi
gi.require_version("GtkSource", "4")
from gi.repository import GtkSource
print(GtkSource.LanguageManager().guess_language("it.range", None).get_name())
' >shown 2>&1
	grep -q '^Rangeline$' shown
	verdict "gtksourceview finds what is installed" 2>"$work/diff"
	fish -c 'complete -C "rangeline conv"' >shown 2>&1
	grep -q '^convert' shown
	verdict "fish finds what is installed" 2>"$work/diff"
	bash --norc -c '. /usr/share/bash-completion/bash_completion
		_completion_loader rangeline; complete -p rangeline' >shown 2>&1
	grep -q '_rangeline rangeline' shown
	verdict "bash-completion finds what is installed" 2>"$work/diff"
	zsh -f -c "fpath=('$share/zsh/site-functions' \$fpath)
		autoload -U compinit && compinit -u -D
		print \$_comps[rangeline]" >shown 2>&1
	grep -q '^_rangeline$' shown
	verdict "zsh finds what is installed" 2>"$work/diff"
	unset XDG_DATA_DIRS

	"$root/build-aux/install-editors" uninstall "$share"
	find "$share" ! -type d >"$work/diff"
	find "$share" -path '*/share/rangeline*' >>"$work/diff"
	test ! -s "$work/diff"
	verdict "nothing is left after uninstalling"
}
installed_tests

# --- A repository of notes --------------------------------------------------

hook_tests() {
	there git || return
	git init -q notes && cd notes || return
	git config user.name Invented
	git config user.email invented@example.invalid
	cp "$editors/git/pre-commit" .git/hooks/
	good=$root/corpus/rules/passive-below-active/clean.range
	bad=$root/corpus/rules/passive-below-active/reported.range
	cp "$good" 'a b.range'
	git add . && git commit -qm good >"$work/diff" 2>&1
	verdict "hook: a sound note is committed"
	cp "$bad" 'a b.range'
	git add . && ! git commit -qm bad >"$work/diff" 2>&1 &&
		grep -q '^a b.range:.*\[passive-below-active\]$' "$work/diff"
	verdict "hook: a note with a warning is not, and the place is named"
	cp "$good" 'a b.range'
	! git commit -qm bad >"$work/diff" 2>&1
	verdict "hook: what counts is what would be committed"
	git add . && cp "$bad" 'a b.range' && echo text >c.txt && git add c.txt &&
		git commit -qm other >"$work/diff" 2>&1
	verdict "hook: what would not be committed does not count"
	git checkout -q 'a b.range' && git rm -q 'a b.range' &&
		git commit -qm gone >"$work/diff" 2>&1
	verdict "hook: a note may be removed"
	echo more >>c.txt
	! RANGELINE=there-is-no-such-program git commit -qam x \
		>"$work/diff" 2>&1
	verdict "hook: without the program nothing is committed"
	cd "$work" || exit 2
}
hook_tests

echo "$passed passed, $failed failed"
test "$failed" -eq 0
