" Reads $OUTPUT into the quickfix list as Vim does by itself, and writes to
" $FOUND where it leads.

execute 'cgetfile ' . fnameescape($OUTPUT)
call writefile(map(filter(getqflist(), 'v:val.valid'),
      \ 'bufname(v:val.bufnr) . ":" . v:val.lnum . ":" . v:val.col'), $FOUND)
qall!
