" In vim: the file type, folds, the compiler's list of mistakes, the layout.
function! s:is(got, wanted, what) abort
  if a:got !=# a:wanted
    call add(s:failed, printf('%s: %s, not %s', a:what, string(a:got), string(a:wanted)))
  endif
endfunction
let s:failed = []

try
  edit base.norma
  call s:is(&filetype, 'norma', 'file type')
  call s:is(&commentstring, '# %s', 'comment')
  " The head of the protocol opens a fold, and so does that of the view: braces in texts do not.
  call s:is(map([1, 3, 5, 6, 8, 9, 10, 11], 'foldlevel(v:val)'), [0, 1, 1, 2, 2, 2, 1, 1], 'folds')
  call s:is(b:current_compiler, 'norma', 'compiler')
  silent make!
  let s:list = filter(getqflist(), 'v:val.valid')
  call s:is(len(s:list), 1, 'findings')
  " The mistake stands at letter 45 of the line, which is byte 52: two signs have 3 bytes, one has 4.
  call s:is([bufname(s:list[0].bufnr), s:list[0].lnum, s:list[0].col, s:list[0].type],
        \ ['base.norma', 6, 52, 'e'], 'place')
  call s:is(s:list[0].text =~# '^M003 wrong_value: `f22` cannot stand here', 1, s:list[0].text)
  " A text that cannot be read stays.
  call append(8, '    say "')
  let s:before = getline(1, '$')
  normal! gggqG
  call s:is(getline(1, '$'), s:before, 'layout of a text with a mistake')
  9delete
  %s/f22/f\/22/
  %s/\<front\>/facial_view/g
  normal! gggqG
  call s:is(getline(1, '$'), readfile($NORMA_EDITORS . '/../tests/editors/base.mended'), 'layout')
  write
  silent make!
  call s:is(filter(getqflist(), 'v:val.valid && v:val.type ==# "e"'), [], 'findings in the end')
  " With a kit, findings of the kit lead to the kit.
  let g:norma_kit = 'kits/chair_7.yaml'
  compiler norma
  silent make!
  let s:kits = filter(getqflist(), 'v:val.valid && bufname(v:val.bufnr) ==# "kits/chair_7.yaml"')
  call s:is(empty(s:kits), 0, 'findings in the kit: none')
catch
  call add(s:failed, v:exception . ' at ' . v:throwpoint)
endtry
if !empty(s:failed)
  call writefile(s:failed, '/dev/stderr', 'a')
  cquit
endif
qall!
