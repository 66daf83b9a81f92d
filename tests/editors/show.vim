" Writes how $NOTE is coloured to $SHOWN: line, group, text, a run a line.

execute 'edit ' . fnameescape($NOTE)
let s:runs = []
for s:line in range(1, line('$'))
  let s:text = getline(s:line)
  let s:start = 1
  let s:group = ''
  for s:column in range(1, len(s:text) + 1)
    let s:next = s:column > len(s:text) ? 'end'
          \ : synIDattr(synID(s:line, s:column, 1), 'name')
    if s:next !=# s:group && s:column > 1
      call add(s:runs, s:line . "\t" . s:group . "\t"
            \ . strpart(s:text, s:start - 1, s:column - s:start))
      let s:start = s:column
    endif
    let s:group = s:next
  endfor
endfor
call writefile(s:runs, $SHOWN)
qall!
