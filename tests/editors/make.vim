" With $NOTE: what :make finds goes to $FOUND, the note after gq on all of it
" to $TIDIED, after gq without a program to $KEPT.

execute 'edit ' . fnameescape($NOTE)
silent! make! --today=2026-06-01
call writefile(map(filter(getqflist(), 'v:val.valid'),
      \ 'bufname(v:val.bufnr) . ":" . v:val.lnum . ":" . v:val.col . ": "'
      \ . ' . v:val.type . " " . v:val.text'), $FOUND)
normal! gggqG
call writefile(getline(1, '$'), $TIDIED)
edit!
let $PATH = ''
silent! normal! gggqG
call writefile(getline(1, '$'), $KEPT)
call writefile([&commentstring, &formatprg, &filetype], $SETTINGS)
qall!
