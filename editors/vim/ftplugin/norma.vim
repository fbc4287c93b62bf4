" Comments, folds, layout and checks of norma protocols; in neovim also the language server, unless
" g:norma_server is 0.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:# commentstring=#\ %s formatoptions-=t formatoptions+=croql
setlocal expandtab shiftwidth=2 softtabstop=2
" gq, on whatever lines, puts the whole file into the one layout; a file with mistakes stays as it is.
setlocal formatexpr=norma#tidy()
setlocal foldmethod=expr foldexpr=norma#fold(v:lnum) foldlevel=99
let b:match_words = '{:}'
let b:undo_ftplugin = 'setlocal comments< commentstring< formatoptions< expandtab< shiftwidth< '
      \ . 'softtabstop< formatexpr< foldmethod< foldexpr< foldlevel< | unlet! b:match_words'

if !exists('current_compiler')
  compiler norma
endif
if has('nvim') && get(g:, 'norma_server', 1)
  lua require('norma').start()
endif
