" :make checks the protocol, with the kit of g:norma_kit where that is set; :cnext leads through what
" was found.
if exists('current_compiler')
  finish
endif
let current_compiler = 'norma'

let s:kit = get(g:, 'norma_kit', '')
let s:program = 'norma check --format lines'
if !empty(s:kit)
  let s:program .= ' --kit ' . shellescape(s:kit)
endif
execute 'CompilerSet makeprg=' . escape(s:program . ' %:S', ' \|"')
" What was not checked, and the count, are for reading and lead nowhere.
CompilerSet errorformat=%f:%l:%c:\ %trror:\ %m,%f:%l:%c:\ %tarning:\ %m,%f:%l:%c:\ %tdvice:\ %m,%f:\ %trror:\ %m,%f:\ %tarning:\ %m,%f:\ %tdvice:\ %m

augroup norma_compiler
  autocmd!
  autocmd QuickFixCmdPost make,lmake call norma#columns(expand('<amatch>'))
augroup END
