"""What a real shell offers for what is typed, a line a case.

Usage: keys.py SHELL SCRIPT <CASES. A case is what is typed: of what the shell
offers for it all is printed, sorted, one blank between, as the words would
stand behind an = or a blank. A case that begins with ! is completed by a
single tab, and the whole line is printed. bash and zsh are typed at on a
terminal; fish, which can be asked, is asked.
"""
import os
import pty
import re
import subprocess
import sys
import tempfile
import threading
import time

START = {
    "bash": (["bash", "--norc", "--noprofile", "-i"], """
source '%(script)s'
bind '"\\C-x\\C-a": insert-completions'
bind 'set enable-bracketed-paste off'
show() { printf '%%s' "$READLINE_LINE" >'%(out)s.new'; mv '%(out)s.new' '%(out)s'; }
bind -x '"\\C-x\\C-d": show'
"""),
    "zsh": (["zsh", "-f", "-i"], """
unset zle_bracketed_paste
fpath=('%(folder)s' $fpath)
autoload -U compinit && compinit -u -D
zle -C all-matches complete-word _generic
zstyle ':completion:all-matches::::' completer _all_matches _complete
zstyle ':completion:all-matches:*' insert true
zstyle ':completion:*' list-prompt ''
bindkey -e
bindkey '^X^A' all-matches
bindkey '^I' complete-word
show() { print -rn -- "$BUFFER" >'%(out)s.new'; mv '%(out)s.new' '%(out)s' }
zle -N show
bindkey '^X^D' show
"""),
}




def words_of(line):
    """The words of a line of a shell; a blank within one is written _."""
    return re.sub(r"\\(.)", lambda m: "_" if m[1] == " " else m[1], line).split()


def offered(typed, line):
    """What the shell put into the line where the last word of TYPED stood."""
    if not line.startswith(typed):
        return "the line became: " + line
    last = re.search(r"[^ ]*$", typed)[0]
    behind = last.rpartition("=")[0] + "=" if "=" in last else ""
    found = words_of(last + line[len(typed):])
    if found == [last]:
        found = []
    for i, word in enumerate(found):
        for prefix in (behind, behind.partition("=")[2]):
            if prefix and word.startswith(prefix):
                word = word[len(prefix):]
        found[i] = re.sub("[=/]$", "", word)
    return " ".join(sorted(set(found)))


def wait_for(path):
    for _ in range(200):
        if os.path.exists(path):
            with open(path) as file:
                text = file.read()
            os.remove(path)
            return text
        time.sleep(0.05)
    sys.exit("the shell did not answer")


def drain(fd):
    """Takes what the shell prints, so that it never has to wait."""
    try:
        while os.read(fd, 4096):
            pass
    except OSError:
        pass


def ask_fish(script, cases):
    for case in cases:
        typed = case.lstrip("!")
        answer = subprocess.run(
            ["fish", "--no-config", "-c", "source $argv[1]; "
             "complete -C $argv[2]", script, typed],
            stdout=subprocess.PIPE, text=True, check=True).stdout
        found = [line.partition("\t")[0].replace(" ", "\\ ")
                 for line in answer.splitlines()]
        head = typed[:len(typed) - len(re.search("[^ ]*$", typed)[0])]
        if case.startswith("!"):
            print(head + " ".join(found))
        else:
            last = typed[len(head):]
            line = typed + " ".join(found)[len(last):] if found else typed
            print(offered(typed, line))


def type_at(shell, script, cases):
    with tempfile.TemporaryDirectory() as folder:
        words = {"script": script, "out": os.path.join(folder, "line"),
                 "folder": os.path.dirname(script)}
        command, setup = START[shell]
        with open(os.path.join(folder, "setup"), "w") as file:
            file.write(setup % words)
        pid, fd = pty.fork()
        if pid == 0:
            os.environ.update(TERM="dumb", PS1="$ ")
            os.execvp(command[0], command)
        threading.Thread(target=drain, args=(fd,), daemon=True).start()
        started = os.path.join(folder, "started")
        time.sleep(0.2)
        os.write(fd, (". '%s/setup'; : >'%s'\n" % (folder, started)).encode())
        wait_for(started)
        time.sleep(0.2)
        for case in cases:
            keys = "\t" if case.startswith("!") else "\x18\x01"
            os.write(fd, (case.lstrip("!") + keys).encode())
            time.sleep(0.1)
            os.write(fd, b"\x18\x04")
            line = wait_for(words["out"])
            print(line.strip() if case.startswith("!")
                  else offered(case, line))
            os.write(fd, b"\x05\x15")
        os.write(fd, b"exit\n")
        os.close(fd)
        os.waitpid(pid, 0)


def main():
    shell, script = sys.argv[1:3]
    cases = sys.stdin.read().splitlines()
    if shell == "fish":
        ask_fish(script, cases)
    else:
        type_at(shell, script, cases)


main()
