-- Attaches a real editor to the server, as a user's configuration would, and
-- writes what arrived: the diagnostics, and the text after formatting.
local program, notebook, out = arg_program, arg_notebook, arg_out
vim.cmd('edit ' .. vim.fn.fnameescape(notebook))
local client = vim.lsp.start_client({
  name = 'notchbook', cmd = { program, 'lsp' }, root_dir = vim.fn.fnamemodify(notebook, ':h'),
})
vim.lsp.buf_attach_client(0, client)
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
