" :make checks the note; what it found stands in the quickfix list, columns in
" bytes as Vim counts them. :make --tolerance=0 passes an option on.

if exists('current_compiler')
  finish
endif
let current_compiler = 'rangeline'

if exists(':CompilerSet') != 2
  command -nargs=* CompilerSet setlocal <args>
endif

CompilerSet makeprg=rangeline\ check\ --brief\ $*\ %:S
" What the program could not do (`rangeline: ...`) stays in the list as text.
CompilerSet errorformat=%f:%l:%c:\ %trror:\ %m,
      \%f:%l:%c:\ %tarning:\ %m,
      \%f:%l:%c:\ %tote:\ %m
