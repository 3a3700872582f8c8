" Reviews the spec in the buffer. Copy compiler/ and plugin/ into ~/.vim; also for Neovim.
if exists('current_compiler')
  finish
endif
let current_compiler = 'dryfit'

CompilerSet makeprg=dryfit\ review\ --as\ line\ --refuse\ nothing\ %:S
" %v counts letters, as dryfit does.
CompilerSet errorformat=
      \%E%f:%l:%v:\ fails:\ %m,
      \%E%f:%l:%v:\ broken:\ %m,
      \%E%f:%l:%v:\ error:\ %m,
      \%W%f:%l:%v:\ thin:\ %m,
      \%I%f:%l:%v:\ %m,
      \%-G%.%#
