autocmd BufRead,BufNewFile *.norma setfiletype norma
