-- What a real editor shows of a notebook that was opened with the configuration of
-- the documentation: the diagnostics, and the text after formatting.
local out = arg_out
vim.wait(20000, function() return #vim.diagnostic.get(0) > 0 end, 20)
local found = {}
for _, d in ipairs(vim.diagnostic.get(0)) do
  table.insert(found, { line = d.lnum, column = d.col, message = d.message, code = d.code })
end
local format = vim.lsp.buf.formatting_sync or vim.lsp.buf.format
if vim.lsp.buf.formatting_sync then format(nil, 20000) else format({ timeout_ms = 20000 }) end
local text = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), '\n') .. '\n'
vim.fn.writefile({ vim.fn.json_encode({ found = found, text = text }) }, out)
vim.cmd('qall!')
