" Notes of rangeline: :make checks, gq tidies, comments begin with #.

if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

compiler rangeline

" gq goes through rangeline#Tidy(), which writes nothing where the program
" could not be run; formatprg serves those who clear formatexpr.
setlocal formatprg=rangeline\ tidy\ 2>/dev/null
setlocal formatexpr=rangeline#Tidy()
setlocal comments=:# commentstring=#\ %s
setlocal formatoptions-=t textwidth=0
" weight-bearing, c-spine and WR-0192 are one word.
setlocal iskeyword+=-

let b:undo_ftplugin = 'setlocal makeprg< errorformat< formatprg< formatexpr<'
      \ . ' comments< commentstring< formatoptions< textwidth< iskeyword<'
      \ . ' | unlet! b:current_compiler'
