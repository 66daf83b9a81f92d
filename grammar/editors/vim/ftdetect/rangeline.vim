" Notes of rangeline end in .range.
autocmd BufNewFile,BufRead *.range setfiletype rangeline
