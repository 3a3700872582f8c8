" Every save of a spec is reviewed; what is found is in the quickfix list (:copen, :cnext).
augroup dryfit
  autocmd!
  autocmd BufReadPost,BufNewFile *.machine.yaml compiler dryfit
  autocmd BufWritePost *.machine.yaml silent make! | redraw! | cwindow
augroup END
