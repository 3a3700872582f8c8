;;; dryfit.el --- review a machine's spec while it is being written  -*- lexical-binding: t -*-

;; (load "/path/to/dryfit.el") in the init file. Findings show through Flymake, saved or not.
;; Without this file, M-x compile RET dryfit review --as line . RET works as it is.

(require 'flymake)
(require 'seq)

(defvar-local dryfit--process nil)

(defconst dryfit--line
  "^\\(.*?\\):\\([0-9]+\\):\\([0-9]+\\): \\([a-z ]+\\): \\(.*\\)$")

(defun dryfit--severity (verdict)
  (pcase verdict
    ((or "fails" "broken" "error") :error)
    ("thin" :warning)
    (_ :note)))

(defun dryfit--diagnostics (source file)
  "What the current buffer says of FILE, which SOURCE visits."
  (let (found)
    (goto-char (point-min))
    (while (re-search-forward dryfit--line nil t)
      (let ((named (match-string 1))
            (line (string-to-number (match-string 2)))
            (column (string-to-number (match-string 3)))
            (verdict (match-string 4))
            (text (match-string 5)))
        (when (string= named file)
          (let ((region (flymake-diag-region source line column)))
            (push (flymake-make-diagnostic source (car region) (cdr region) (dryfit--severity verdict)
                                           (concat verdict ": " text))
                  found)))))
    (nreverse found)))

(defun dryfit-flymake (report &rest _)
  "Flymake backend: REPORT what a review of this buffer finds."
  (when (process-live-p dryfit--process)
    (kill-process dryfit--process))
  (let ((source (current-buffer))
        (file (file-name-nondirectory (buffer-file-name))))
    (setq dryfit--process
          (make-process
           :name "dryfit" :noquery t :connection-type 'pipe
           :buffer (generate-new-buffer " *dryfit*")
           :command (list "dryfit" "review" "--as" "line" "--refuse" "nothing" "--named" file "-")
           :sentinel
           (lambda (process _event)
             (when (memq (process-status process) '(exit signal))
               (unwind-protect
                   (when (and (buffer-live-p source)
                              (eq process (buffer-local-value 'dryfit--process source)))
                     (with-current-buffer (process-buffer process)
                       (funcall report (dryfit--diagnostics source file))))
                 (kill-buffer (process-buffer process)))))))
    (process-send-region dryfit--process (point-min) (point-max))
    (process-send-eof dryfit--process)))

(defun dryfit-setup ()
  (when (and buffer-file-name (string-match-p "\\.machine\\.yaml\\'" buffer-file-name))
    (add-hook 'flymake-diagnostic-functions #'dryfit-flymake nil t)
    (flymake-mode 1)))

(add-hook 'find-file-hook #'dryfit-setup)

(provide 'dryfit)
;;; dryfit.el ends here
