-- Drives Neovim's own client against the language server and writes what it saw as JSON.
-- Environment: TORQUIL_NODE, TORQUIL_SERVER, TORQUIL_ROOT, TORQUIL_FILE, TORQUIL_OUT.

local env = vim.env
local seen = { messages = {} }

local function finish(code)
  local out = assert(io.open(env.TORQUIL_OUT, "w"))
  out:write(vim.json.encode(seen))
  out:close()
  vim.cmd(code == 0 and "qall!" or "cquit")
end

local function wait(what, condition)
  if vim.wait(20000, condition, 10) then
    return
  end
  seen.gaveUp = what
  finish(1)
end

-- The first repair that is offered is taken, as by a person who presses return.
vim.ui.select = function(items, _, choose)
  seen.offered = vim.tbl_map(function(item)
    return item[2].title
  end, items)
  choose(items[1], 1)
end

vim.cmd("edit " .. env.TORQUIL_FILE)
local buffer = vim.api.nvim_get_current_buf()

local client = vim.lsp.start_client({
  name = "torquil",
  cmd = { env.TORQUIL_NODE, env.TORQUIL_SERVER },
  root_dir = env.TORQUIL_ROOT,
  on_error = function(code, err)
    table.insert(seen.messages, tostring(code) .. " " .. vim.inspect(err))
  end,
  on_exit = function(code)
    seen.exitCode = code
  end,
})
vim.lsp.buf_attach_client(buffer, client)

local function lines()
  return vim.api.nvim_buf_get_lines(buffer, 0, -1, false)
end

local function line_with(text)
  for number, line in ipairs(lines()) do
    local column = line:find(text, 1, true)
    if column then
      return number, column - 1, line
    end
  end
  seen.gaveUp = "no line with " .. text
  finish(1)
end

local function diagnostics()
  return vim.tbl_map(function(d)
    return { code = d.code or (d.user_data and d.user_data.lsp.code), line = d.lnum, column = d.col, message = d.message }
  end, vim.diagnostic.get(buffer))
end

wait("findings", function()
  return #vim.diagnostic.get(buffer) > 0
end)
seen.before = diagnostics()

local fastener, at = line_with("cover-bolts, cover")
vim.api.nvim_win_set_cursor(0, { fastener, at + 2 })
local answers = vim.lsp.buf_request_sync(buffer, "textDocument/hover", vim.lsp.util.make_position_params(), 20000)
seen.hover = answers and answers[client] and answers[client].result

local number, column = line_with("5,5 to")
-- Neovim's own command for repairs: it sends its findings along, with columns in bytes.
vim.api.nvim_win_set_cursor(0, { number, column })
vim.lsp.buf.code_action()
wait("the repair", function()
  return table.concat(lines(), "\n"):find("5,5", 1, true) == nil
end)
wait("findings after the repair", function()
  for _, d in ipairs(vim.diagnostic.get(buffer)) do
    if d.lnum == number - 1 and d.severity == vim.diagnostic.severity.ERROR then
      return false
    end
  end
  return true
end)
seen.repaired = lines()[number]

vim.lsp.buf.formatting_sync(nil, 20000)
seen.formatted = lines()
seen.after = diagnostics()

vim.lsp.stop_client(client)
wait("the end of the server", function()
  return seen.exitCode ~= nil
end)
finish(0)
