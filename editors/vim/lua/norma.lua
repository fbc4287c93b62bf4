-- norma's language server in neovim, from 0.7 on.
local M = {}
local clients = {} -- by folder, where vim.lsp.start does not keep them

-- The repository's top: protocols build on others anywhere in it.
local function folder_of(file)
  local own = vim.fn.fnamemodify(file, ":p:h")
  local folder = own
  while true do
    local above = vim.fn.fnamemodify(folder, ":h")
    if vim.loop.fs_stat(folder .. "/.git") then
      return folder
    elseif above == folder then
      return own
    end
    folder = above
  end
end

-- Names, places and layout by neovim's own keys: tags (CTRL-]), completion (CTRL-X CTRL-O).
local function attached(_, buffer)
  vim.api.nvim_buf_set_option(buffer, "omnifunc", "v:lua.vim.lsp.omnifunc")
  vim.api.nvim_buf_set_option(buffer, "tagfunc", "v:lua.vim.lsp.tagfunc")
  vim.api.nvim_buf_create_user_command(buffer, "NormaKit", function(options)
    M.choose_kit(buffer, options.fargs)
  end, { nargs = "*", complete = "file", desc = "Kits to hold protocols against" })
end

function M.start()
  local buffer = vim.api.nvim_get_current_buf()
  local file = vim.api.nvim_buf_get_name(buffer)
  if file == "" or file:find("^%a+://") or vim.fn.executable("norma") == 0 then
    return
  end
  local kit = { norma = { kit = vim.g.norma_kit } }
  local config = {
    name = "norma",
    cmd = { "norma", "serve" },
    root_dir = folder_of(file),
    init_options = kit,
    settings = vim.g.norma_kit and kit or nil,
    get_language_id = function()
      return "norma"
    end,
    on_attach = attached,
  }
  if vim.lsp.start then
    return vim.lsp.start(config, { bufnr = buffer })
  end
  local known = clients[config.root_dir]
  if not known or not vim.lsp.get_client_by_id(known) or vim.lsp.get_client_by_id(known).is_stopped() then
    known = vim.lsp.start_client(config)
    clients[config.root_dir] = known
  end
  if known then
    vim.lsp.buf_attach_client(buffer, known)
  end
  return known
end

-- `paths`: from the top folder; none asks which of those that are there.
function M.choose_kit(buffer, paths)
  vim.lsp.buf_request(buffer, "workspace/executeCommand",
    { command = "norma.chooseKit", arguments = paths }, function() end)
end

return M
