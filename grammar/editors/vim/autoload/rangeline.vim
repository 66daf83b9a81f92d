" What gq does in a note. The whole note is tidied, so that a line that goes on
" with the joint above it is understood, and of the answer the lines asked for
" are taken. Nothing is changed where the program is missing or fails.

function! rangeline#Tidy() abort
  if mode() =~# '[iR]'
    return 0
  endif
  let l:note = getline(1, '$')
  " What could not be read is said on standard error, and left as it is.
  let l:tidied = systemlist('rangeline tidy 2>/dev/null', l:note)
  if v:shell_error > 1 || len(l:tidied) != len(l:note)
    echohl ErrorMsg
    echomsg 'rangeline tidy did not work here; nothing was changed'
    echohl None
    return 0
  endif
  for l:number in range(v:lnum, v:lnum + v:count - 1)
    if getline(l:number) !=# l:tidied[l:number - 1]
      call setline(l:number, l:tidied[l:number - 1])
    endif
  endfor
  return 0
endfunction
