;; Runs $COMMAND with M-x compile and writes where next-error goes to $FOUND:
;; file:line:column, columns in bytes. With $TIDIED also what C-c C-f makes of
;; $NOTE, in $LAID what C-c C-s shows, and in $KEPT what C-c C-f leaves where
;; there is no program.

(setq compilation-ask-about-save nil
      coding-system-for-write 'utf-8-unix)
(defun compile-and-visit ()
  (let ((buffer (compile (getenv "COMMAND"))) found)
    (while (get-buffer-process buffer)
      (accept-process-output nil 0.05))
    (setq compilation-skip-threshold 0)
    (condition-case nil
        (while t
          (next-error)
          (with-current-buffer (window-buffer)
            (goto-char (window-point))
            (push (format "%s:%d:%d\n"
                          (file-relative-name buffer-file-name)
                          (line-number-at-pos)
                          (1+ (string-bytes (buffer-substring-no-properties
                                             (line-beginning-position)
                                             (point)))))
                  found)))
      (error nil))
    (with-temp-file (getenv "FOUND")
      (apply #'insert (nreverse found)))))
(compile-and-visit)
(when (getenv "TIDIED")
  (find-file (getenv "NOTE"))
  (rangeline-tidy)
  (write-region nil nil (getenv "TIDIED"))
  (revert-buffer t t)
  (rangeline-summary)
  (with-current-buffer "*rangeline summary*"
    (write-region nil nil (getenv "LAID")))
  (setq rangeline-program "there-is-no-such-program")
  (ignore-errors (rangeline-tidy))
  (write-region nil nil (getenv "KEPT")))
