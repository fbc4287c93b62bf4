-- In neovim: its own client, as the files of editors/vim start it.
local wanted_time = 20000

local function is(got, wanted, what)
  if not vim.deep_equal(got, wanted) then
    error(what .. ": " .. vim.inspect(got) .. ", not " .. vim.inspect(wanted), 2)
  end
end
local function wait(what, done)
  if not vim.wait(wanted_time, done, 20) then
    error("never came: " .. what .. "\n" .. vim.inspect(vim.diagnostic.get(0)), 2)
  end
end
local function line(number)
  return vim.fn.getline(number)
end
local function errors()
  return vim.diagnostic.get(0, { severity = vim.diagnostic.severity.ERROR })
end

local function try()
  vim.ui.select = function(items, _, chosen)
    chosen(items[1], 1)
  end
  vim.cmd("edit base.norma")
  is(vim.bo.filetype, "norma", "file type")
  wait("the mistake", function() return #errors() == 1 end)
  local mistake = errors()[1]
  is({ mistake.lnum, mistake.col }, { 5, line(6):find("f22") - 1 }, "place")
  is(mistake.source, "norma", "source")

  vim.fn.cursor(6, mistake.col + 1)
  vim.lsp.buf.code_action({ context = { only = { "quickfix" } } })
  wait("the quick fix", function() return line(6):find("f/22", 1, true) ~= nil end)
  wait("its end", function() return #errors() == 0 end)

  vim.fn.cursor(6, line(6):find("front"))
  vim.lsp.buf.rename("facial_view")
  wait("the new name", function() return line(10):find("same as facial_view", 1, true) ~= nil end)
  is(line(6):find("view facial_view", 1, true), 3, "the view's own name")

  if vim.lsp.buf.format then
    vim.lsp.buf.format({ timeout_ms = wanted_time })
  else
    vim.lsp.buf.formatting_sync(nil, wanted_time)
  end
  is(line(6):find("view facial_view", 1, true), 3, "layout")
  vim.cmd("wall")

  -- A kit is chosen: what it has shows in findings that were not there.
  local before = #vim.diagnostic.get(0)
  vim.cmd("NormaKit kits/chair_7.yaml")
  wait("findings with the kit", function() return #vim.diagnostic.get(0) > before end)

  -- Not a second server for a second file.
  vim.cmd("edit child.norma")
  is(line(6):find("change view facial_view", 1, true), 3, "the name in the other file")
  is(#vim.lsp.get_active_clients(), 1, "servers")
  wait("its server", function() return #vim.lsp.buf_get_clients(0) == 1 end)
  vim.fn.cursor(6, 16)
  is(vim.bo.tagfunc, "v:lua.vim.lsp.tagfunc", "tags")
  vim.cmd("normal! \29") -- CTRL-]
  is(vim.fn.expand("%:t"), "base.norma", "where the view is written")
end

local well, why = xpcall(try, debug.traceback)
if not well then
  io.stderr:write(why .. "\n")
  vim.cmd("cquit")
end
vim.cmd("qall!")
