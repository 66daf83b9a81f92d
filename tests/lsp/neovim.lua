-- The language server in Neovim, with what the editor itself brings: run by
-- tests/lsp/run.sh as `nvim --headless -u NONE -c 'luafile neovim.lua'`, the
-- program in $RANGELINE. Closes with `N passed, N failed`.

local program = os.getenv("RANGELINE")
local clients = vim.lsp.get_clients or vim.lsp.get_active_clients
vim.o.report = 9999
local passed, failed = 0, 0

local function say(text)
  io.stdout:write(text .. "\n")
end

local function test(name, body)
  local ok, why = xpcall(body, debug.traceback)
  if ok then
    passed = passed + 1
  else
    failed = failed + 1
    say("FAILED " .. name .. "\n" .. tostring(why))
  end
end

local function same(a, b, what)
  if not vim.deep_equal(a, b) then
    error((what or "differs") .. ": " .. vim.inspect(a) .. " is not " ..
      vim.inspect(b), 2)
  end
end

local function within(seconds, what, condition)
  if not vim.wait(seconds * 1000, condition, 5) then
    error("waited in vain: " .. what, 2)
  end
end

local folder = vim.fn.tempname()
vim.fn.mkdir(folder, "p")
local opened = 0

-- A note in a buffer of its own, the server attached.
local function note(text)
  opened = opened + 1
  local path = folder .. "/note" .. opened .. ".range"
  vim.fn.writefile(vim.split(text, "\n"), path)
  vim.cmd("edit " .. path)
  vim.bo.filetype = "rangeline"
  local id = vim.lsp.start_client({
    name = "rangeline",
    cmd = { program, "language-server", "--today", "2026-06-01" },
    root_dir = folder,
    settings = {},
  })
  local buffer = vim.api.nvim_get_current_buf()
  vim.lsp.buf_attach_client(buffer, id)
  within(5, "the server", function()
    local client = vim.lsp.get_client_by_id(id)
    return client and client.initialized
  end)
  return { buffer = buffer, path = path,
    client = vim.lsp.get_client_by_id(id) }
end

local function codes(buffer)
  local list = {}
  for _, d in ipairs(vim.diagnostic.get(buffer)) do
    list[#list + 1] = ("%d:%d %s"):format(d.lnum, d.col, d.code or
      d.user_data.lsp.code)
  end
  table.sort(list)
  return list
end

-- What `check` says of the lines of the buffer; columns in bytes, as above.
local function checked(buffer)
  local path = vim.fn.tempname() .. ".range"
  vim.fn.writefile(vim.api.nvim_buf_get_lines(buffer, 0, -1, true), path)
  local list = {}
  for _, line in ipairs(vim.fn.systemlist({ program, "check", "--format",
    "json", "--today", "2026-06-01", path })) do
    local f = vim.fn.json_decode(line)
    list[#list + 1] = ("%d:%d %s"):format(f.line - 1, f.column - 1, f.rule)
  end
  table.sort(list)
  return list
end

local function request(n, method, params)
  params = params or {}
  params.textDocument = { uri = vim.uri_from_bufnr(n.buffer) }
  local answer = n.client.request_sync(method, params, 5000, n.buffer)
  assert(answer, method .. ": no answer")
  assert(not answer.err, vim.inspect(answer.err))
  return answer.result
end

local text = table.concat({
  "# Invented example: “e–x”",
  "subject     WR-0192",
  "involved    right forearm",
  "session 2026-05-04",
  'forearm pronation R A 0–52 "ü\240\159\166\180" P 0-30 firm L A 0-78 P 0-84 firm',
  "forearm supinaton R A 0-30",
  "knee extension    R A 10",
}, "\n")

local n

test("the findings of check, shown in the buffer", function()
  n = note(text)
  within(5, "findings", function() return #codes(n.buffer) > 0 end)
  same(codes(n.buffer), checked(n.buffer))
  assert(#codes(n.buffer) >= 3)
end)

test("they follow what is typed", function()
  vim.api.nvim_buf_set_text(n.buffer, 5, 8, 5, 17, { "supination" })
  within(5, "findings", function()
    return vim.deep_equal(codes(n.buffer), checked(n.buffer))
  end)
  for _, code in ipairs(codes(n.buffer)) do
    assert(not code:find("unknown-word", 1, true), code)
  end
end)

test("they follow typing by hand, undo, and lines put in", function()
  local function keys(k)
    vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes(k, true, false, true),
      "xt", false)
  end
  keys("gg0Oknee R A 9–5 \"ü\" # é<Esc>")
  within(5, "findings", function()
    return vim.deep_equal(codes(n.buffer), checked(n.buffer))
  end)
  assert(table.concat(codes(n.buffer), "\n"):find("0:%d+ end%-before%-start"))
  keys("u")
  within(5, "findings", function()
    return vim.deep_equal(codes(n.buffer), checked(n.buffer))
  end)
  keys("ggyyPPjdd")
  within(5, "findings", function()
    return vim.deep_equal(codes(n.buffer), checked(n.buffer))
  end)
  keys("ggdd")
end)

test("completion by the editor's own function", function()
  local c = note("session 2026-05-04\nforearm ")
  vim.api.nvim_win_set_cursor(0, { 2, 7 })
  local list = request(c, "textDocument/completion",
    { position = { line = 1, character = 8 } })
  local matches = vim.lsp.util.text_document_completion_list_to_complete_items(
    list, "p")
  local words = {}
  for _, m in ipairs(matches) do words[m.word] = true end
  assert(words["pronation"], vim.inspect(words))
  assert(not words["flexion"])
end)

test("hover", function()
  local hover = request(n, "textDocument/hover",
    { position = { line = 4, character = 24 } })
  assert(hover.contents.value:find("right forearm pronation, active", 1, true),
    vim.inspect(hover))
end)

test("a quick fix, applied by the editor", function()
  local range = { start = { line = 6, character = 22 },
    ["end"] = { line = 6, character = 24 } }
  local fixes = request(n, "textDocument/codeAction",
    { range = range, context = { diagnostics = {} } })
  same(#fixes, 2)
  vim.lsp.util.apply_workspace_edit(fixes[1].edit, n.client.offset_encoding)
  same(vim.api.nvim_buf_get_lines(n.buffer, 6, 7, true)[1],
    "knee extension    R A lacks 10")
  within(5, "findings", function()
    return vim.deep_equal(codes(n.buffer), checked(n.buffer))
  end)
end)

test("formatting in the buffer is tidy", function()
  local path = vim.fn.tempname() .. ".range"
  vim.fn.writefile(vim.api.nvim_buf_get_lines(n.buffer, 0, -1, true), path)
  local tidy = vim.fn.systemlist({ program, "tidy", path })
  local edits = request(n, "textDocument/formatting",
    { options = { tabSize = 8, insertSpaces = true } })
  assert(#edits > 0)
  vim.lsp.util.apply_text_edits(edits, n.buffer, n.client.offset_encoding)
  same(vim.api.nvim_buf_get_lines(n.buffer, 0, -1, true), tidy)
end)

test("symbols, as the editor lists them", function()
  local symbols = request(n, "textDocument/documentSymbol")
  local items = vim.lsp.util.symbols_to_items(symbols, n.buffer)
  local names = {}
  for _, item in ipairs(items) do names[#names + 1] = item.text end
  assert(table.concat(names, "; "):find("WR%-0192.*2026%-05%-04.*forearm"),
    vim.inspect(names))
end)

test("the server ends with the editor's request", function()
  for _, client in ipairs(clients()) do
    client.stop()
  end
  within(5, "the end", function() return #clients() == 0 end)
end)

vim.fn.delete(folder, "rf")
-- The editor may have said something of its own on the same line.
say(("\n%d passed, %d failed"):format(passed, failed))
io.stdout:flush()
if failed > 0 or passed == 0 then
  vim.cmd("cquit 1")
end
vim.cmd("qall!")
