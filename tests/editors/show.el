;; Writes how $NOTE is coloured to $SHOWN: line, face, text, a run a line.

(setq coding-system-for-read 'utf-8-unix
      coding-system-for-write 'utf-8-unix)
(require 'rangeline-mode)
(find-file (getenv "NOTE"))
(font-lock-ensure)
(let (runs)
  (goto-char (point-min))
  (while (not (eobp))
    (let* ((face (get-text-property (point) 'face))
           (next (min (next-single-property-change (point) 'face nil
                                                   (point-max))
                      (line-end-position))))
      (if (eolp)
          (forward-line 1)
        (push (format "%d\t%s\t%s\n" (line-number-at-pos)
                      (if (consp face) (car face) (or face ""))
                      (buffer-substring-no-properties (point) next))
              runs)
        (goto-char next))))
  (with-temp-file (getenv "SHOWN")
    (apply #'insert (nreverse runs))))
