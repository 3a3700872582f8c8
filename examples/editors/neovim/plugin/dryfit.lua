-- Reviews a spec while it is being written, saved or not, and shows what is found beside the lines.
-- Copy plugin/ into ~/.config/nvim.
local space = vim.api.nvim_create_namespace('dryfit')
local format = '%E%f:%l:%v: fails: %m,%E%f:%l:%v: broken: %m,%E%f:%l:%v: error: %m,%W%f:%l:%v: thin: %m,%I%f:%l:%v: %m'

local function show(buffer, file, lines)
  if not vim.api.nvim_buf_is_loaded(buffer) then
    return
  end
  -- What stands in a library is shown when that library is reviewed with its spec in view.
  local own = vim.tbl_filter(function(line) return vim.startswith(line, file .. ':') end, lines)
  local items = vim.fn.getqflist({ lines = own, efm = format }).items
  for _, item in ipairs(items) do
    item.bufnr = buffer
    -- Diagnostics count bytes, dryfit letters.
    local text = vim.api.nvim_buf_get_lines(buffer, item.lnum - 1, item.lnum, false)[1] or ''
    item.col = vim.str_byteindex(text, math.min(item.col - 1, vim.fn.strchars(text))) + 1
  end
  vim.diagnostic.set(space, buffer, vim.diagnostic.fromqflist(items))
end

local function review(buffer)
  local file = vim.fn.fnamemodify(vim.api.nvim_buf_get_name(buffer), ':.')
  local out = {}
  local job = vim.fn.jobstart({ 'dryfit', 'review', '--as', 'line', '--refuse', 'nothing', '--named', file, '-' }, {
    stdout_buffered = true,
    on_stdout = function(_, lines) out = lines end,
    on_exit = function() show(buffer, file, out) end,
  })
  if job > 0 then
    vim.fn.chansend(job, vim.api.nvim_buf_get_lines(buffer, 0, -1, false))
    vim.fn.chanclose(job, 'stdin')
  end
end

vim.api.nvim_create_autocmd({ 'BufReadPost', 'BufWritePost', 'InsertLeave', 'TextChanged' }, {
  pattern = '*.machine.yaml',
  callback = function(event) review(event.buf) end,
})
