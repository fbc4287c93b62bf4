" What the vim files for norma have in common.

" The whole text by `norma tidy`. Where norma says no, the text stays and what it says is shown.
function! norma#tidy() abort
  if mode() =~# '[iR]'
    return 1 " vim wraps what is being typed
  endif
  let l:name = empty(expand('%')) ? '' : ' --stdin-name ' . shellescape(expand('%:t'))
  let l:made = systemlist('norma tidy -' . l:name, getline(1, '$'))
  if v:shell_error
    echohl ErrorMsg
    echomsg get(l:made, 0, 'norma could not be run')
    echohl None
    return 0
  endif
  let l:view = winsaveview()
  let l:same = 0
  while l:same < min([len(l:made), line('$')]) && l:made[l:same] ==# getline(l:same + 1)
    let l:same += 1
  endwhile
  if l:same < len(l:made) || l:same < line('$')
    if line('$') > len(l:made)
      silent execute len(l:made) + 1 . ',$delete _'
    endif
    call setline(l:same + 1, l:made[l:same :])
  endif
  call winrestview(l:view)
  return 0
endfunction

" A block is a fold. Braces in texts and comments open nothing.
function! norma#fold(number) abort
  let l:text = substitute(getline(a:number), '"\%(\\.\|[^"\\]\)*\%("\|$\)\|#.*', '', 'g')
  let l:deeper = count(l:text, '{') - count(l:text, '}')
  return l:deeper > 0 ? 'a' . l:deeper : l:deeper < 0 ? 's' . -l:deeper : '='
endfunction

" norma counts letters, vim bytes.
function! norma#columns(command) abort
  if &makeprg !~# '^norma check'
    return
  endif
  let l:window = a:command ==# 'lmake'
  let l:items = l:window ? getloclist(0) : getqflist()
  let l:texts = {}
  for l:item in l:items
    if !l:item.valid || l:item.col < 2
      continue
    endif
    if !has_key(l:texts, l:item.bufnr)
      let l:name = bufname(l:item.bufnr)
      let l:texts[l:item.bufnr] = bufloaded(l:item.bufnr) ? getbufline(l:item.bufnr, 1, '$')
            \ : filereadable(l:name) ? readfile(l:name) : []
    endif
    let l:at = byteidx(get(l:texts[l:item.bufnr], l:item.lnum - 1, ''), l:item.col - 1)
    if l:at > 0
      let l:item.col = l:at + 1
    endif
  endfor
  if l:window
    call setloclist(0, l:items, 'r')
  else
    call setqflist(l:items, 'r')
  endif
endfunction
