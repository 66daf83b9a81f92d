;;; rangeline-mode.el --- Notes of joint range of motion  -*- lexical-binding: t -*-

;; SPDX-License-Identifier: GPL-3.0-or-later
;; Version: 0.1.0
;; Package-Requires: ((emacs "26.1"))
;; Keywords: languages, data

;;; Commentary:

;; Colours for notes in the notation of rangeline, which end in .range.
;; M-x compile checks the note, C-c C-f tidies it, C-c C-s lays it out for a
;; reader.  Where Eglot is loaded, M-x eglot starts the language server.
;;
;; The words come from grammar/vocabulary.tsv: what stands between two marks
;; is written by build-aux/editors.awk.

;;; Code:

(require 'compile)

(defgroup rangeline nil
  "Notes of joint range of motion, one reading to a line."
  :group 'languages)

(defcustom rangeline-program "rangeline"
  "The program that checks and tidies notes."
  :type 'string)

(defmacro rangeline--defface (name like doc)
  "Define face NAME for DOC; it looks LIKE another."
  `(defface ,name '((t :inherit ,like)) ,doc :group 'rangeline))

(rangeline--defface rangeline-header font-lock-keyword-face
                    "The word that begins a header.")
(rangeline--defface rangeline-code font-lock-variable-name-face
                    "A code that stands for a person.")
(rangeline--defface rangeline-date font-lock-constant-face
                    "A date or a time.")
(rangeline--defface rangeline-number default
                    "A number, a range, a unit or a vertebral level.")
(rangeline--defface rangeline-error font-lock-warning-face
                    "What begins like a number or a text and is none.")
(rangeline--defface rangeline-side font-lock-preprocessor-face
                    "Right, left or both.")
(rangeline--defface rangeline-mode-word font-lock-preprocessor-face
                    "Active, passive or assisted.")
(rangeline--defface rangeline-joint font-lock-type-face
                    "A joint or a digit.")
(rangeline--defface rangeline-motion font-lock-function-name-face
                    "A motion or a named measure.")
(rangeline--defface rangeline-position font-lock-builtin-face
                    "A posture or a setting.")
(rangeline--defface rangeline-feel font-lock-constant-face
                    "An end feel, or what stopped the motion.")
(rangeline--defface rangeline-outcome font-lock-constant-face
                    "Not tested, within normal limits.")
(rangeline--defface rangeline-word font-lock-builtin-face
                    "A word behind a value or in a header.")
(rangeline--defface rangeline-accept font-lock-doc-face
                    "A comment that accepts a finding.")

(defconst rangeline--words
  '((header
     ;; @words header
     "precautions" "precaution" "instrument" "dominance" "dominant" "involved"
     "opposite" "position" "requires" "session" "subject" "surgery" "remarks"
     "require" "remark" "goals" "rater" "born" "goal" "mode" "age" "sex"
     ;; @end
     )
    (side
     ;; @words side
     "bilateral" "right" "bilat" "left" "both" "rt" "lt" "RA" "RP" "LA" "LP"
     "R" "L" "B"
     ;; @end
     )
    (mode
     ;; @words mode
     "active-assisted" "active assisted" "place-and-hold" "place and hold"
     "place-hold" "assisted" "passive" "active" "AAROM" "AROM" "PROM" "AA"
     "PH" "A" "P"
     ;; @end
     )
    (joint
     ;; @words joint
     "thoracolumbar spine" "temporomandibular" "cervical spine"
     "thoracic spine" "thoraco-lumbar" "gleno-humeral" "thoracolumbar"
     "middle finger" "little finger" "glenohumeral" "tibiofemoral"
     "lumbar spine" "index finger" "small finger" "humeroulnar" "radio-ulnar"
     "radiocarpal" "long finger" "ring finger" "radioulnar" "talocrural"
     "second-toe" "second toe" "fourth-toe" "fourth toe" "little toe"
     "little-toe" "sub-talar" "great-toe" "great toe" "third-toe" "third toe"
     "fifth-toe" "fifth toe" "small toe" "shoulder" "subtalar" "hindfoot"
     "cervical" "thoracic" "low back" "TL-spine" "mandible" "forearm"
     "c-spine" "t-spine" "l-spine" "tlspine" "big toe" "big-toe" "cspine"
     "tspine" "lumbar" "lspine" "pollex" "middle" "little" "hallux" "elbow"
     "wrist" "ankle" "thumb" "index" "small" "pinky" "spine" "shld" "knee"
     "foot" "neck" "long" "ring" "CMCJ" "MCPJ" "PIPJ" "DIPJ" "MTPJ" "hand"
     "toes" "GHJ" "elb" "hip" "ank" "STJ" "jaw" "TMJ" "CMC" "MCP" "MPJ" "PIP"
     "DIP" "IPJ" "MTP" "sh" "GH" "fa" "wr" "hp" "kn" "ft" "th" "D1" "IF" "D2"
     "MF" "D3" "RF" "D4" "SF" "D5" "LF" "T1" "T2" "T3" "T4" "T5" "MP" "IP"
     ;; @end
     )
    (motion
     ;; @words motion
     "plane of scapula elevation" "horizontal abduction"
     "horizontal extension" "horizontal adduction" "cross-body adduction"
     "horizontal flexion" "fingertip-to-floor" "fingertip to floor"
     "internal rotation" "external rotation" "lateral excursion"
     "lateral rotation" "radial deviation" "palmar abduction"
     "radial abduction" "hand-behind-back" "hand behind back"
     "medial rotation" "ulnar deviation" "plantar flexion" "lateral flexion"
     "lateral bending" "horizontal abd" "horizontal add" "plantarflexion"
     "mouth opening" "laterotrusion" "tip-to-crease" "tip to crease"
     "internal rot" "int rotation" "external rot" "ext rotation"
     "dorsiflexion" "side bending" "side-bending" "side flexion"
     "tip-to-table" "tip to table" "knee-to-wall" "knee to wall"
     "schober test" "lateral rot" "plantarflex" "sidebending" "lat flexion"
     "lateral exc" "medial rot" "supination" "radial dev" "palmar abd"
     "radial abd" "protrusion" "opposition" "extension" "abduction"
     "adduction" "horiz abd" "horiz add" "pronation" "ulnar dev" "dorsiflex"
     "inversion" "side bend" "excursion" "scaption" "palm abd" "eversion"
     "lat flex" "rotation" "kapandji" "flexion" "int rot" "ext rot" "rad dev"
     "uln dev" "rad abd" "opening" "lat exc" "schober" "abduct" "adduct"
     "h-abd" "h-add" "supin" "dorsi" "protr" "flex" "extn" "HABD" "HADD"
     "scap" "pron" "PABD" "RABD" "ever" "open" "flx" "ext" "abd" "add" "pro"
     "sup" "inv" "rot" "TTC" "TTT" "FTF" "KTW" "HBB" "IR" "MR" "ER" "LR" "RD"
     "UD" "DF" "PF" "ev" "SB"
     ;; @end
     )
    (position
     ;; @words position
     "non-weight-bearing" "non weight bearing" "gravity-eliminated"
     "gravity eliminated" "non-weightbearing" "nonweightbearing"
     "weight-bearing" "weight bearing" "weightbearing" "long-sitting"
     "long sitting" "longsitting" "crook-lying" "crook lying" "side-lying"
     "side lying" "hook-lying" "hook lying" "sidelying" "hooklying" "standing"
     "kneeling" "sitting" "longsit" "sidelie" "supine" "seated" "prone"
     "stand" "kneel" "sit" "NWB" "SL" "HL" "WB" "GE"
     ;; @end
     )
    (outcome
     ;; @words outcome
     "within functional limits" "within normal limits" "not-tested"
     "not tested" "WNL" "WFL" "NT"
     ;; @end
     )
    (word
     ;; @words word
     "visual estimate" "hyperextension" "substitutions" "inclinometer"
     "tape measure" "tape-measure" "substitution" "repetitions" "painful-arc"
     "painful arc" "unavailable" "goniometer" "repetition" "stopped-by"
     "stopped by" "ankylosed" "opposite" "end-feel" "end feel" "position"
     "hyperext" "eyeball" "lacking" "maximum" "visual" "gonio" "ruler" "lacks"
     "hyper" "fixed" "after" "until" "incl" "tape" "rule" "lack" "less" "pain"
     "reps" "with" "from" "step" "none" "rep" "sub" "max" "at" "by" "no"
     ;; @end
     )
    (feel
     ;; @words feel
     "tissue-approximation" "tissue approximation" "muscle guarding"
     "muscle-guarding" "tissue-stretch" "tissue stretch" "springy-block"
     "springy block" "bone-to-bone" "bone to bone" "apprehension" "stiffness"
     "tightness" "capsular" "guarding" "weakness" "swelling" "stretch"
     "springy" "oedema" "empty" "spasm" "boggy" "edema" "soft" "firm" "hard"
     "bony" "STA"
     ;; @end
     )
    (number
     ;; @words number
     "millimetres" "millimeters" "centimetres" "centimeters" "millimetre"
     "millimeter" "centimetre" "centimeter" "degrees" "degree" "degs" "deg"
     "T10" "T11" "T12" "°" "º" "mm" "cm" "C1" "C2" "C3" "C4" "C5" "C6" "C7"
     "T6" "T7" "T8" "T9" "L1" "L2" "L3" "L4" "L5" "S1"
     ;; @end
     )
    (angle
     ;; @words angle
     "abducted" "adducted" "extended" "elevated" "flexed" "flex" "abd" "add"
     "ext"
     ;; @end
     )
    (part
     ;; @words part
     "shoulder" "forearm" "fingers" "finger" "elbow" "wrist" "ankle" "trunk"
     "knee" "neck" "MCP" "PIP" "DIP" "hip" "MTP" "MP" "IP"
     ;; @end
     )
    (state
     ;; @words state
     "supinated" "straight" "extended" "pronated" "abducted" "adducted"
     "neutral" "flexed" "bent"
     ;; @end
     ))
  "The words of the notation, the longest of each group first.")

(defun rangeline--any (group)
  "A pattern of any word of GROUP, without what must stand round it."
  (concat "\\(?:"
          (mapconcat (lambda (word)
                       (replace-regexp-in-string
                        " " "[ \t]+" (regexp-quote word) t t))
                     (cdr (assq group rangeline--words)) "\\|")
          "\\)"))

(defun rangeline--word (pattern)
  "PATTERN as a whole word."
  (concat "\\_<" pattern "\\_>"))

(defconst rangeline--number "[0-9]+\\(?:\\.[0-9]+\\)?")

(defconst rangeline--value
  (concat rangeline--number
          "\\(?:[°º]?\\(?:[-–]\\|[ \t]+[-–][ \t]+\\|[ \t]+to[ \t]+\\)"
          rangeline--number "\\)\\{0,2\\}"
          "\\(?:/" rangeline--number "\\)\\{0,2\\}"
          "\\(?:[°º]\\|deg\\|mm\\|cm\\)?")
  "A number, a range or neutral-zero, a unit glued to it.")

(defconst rangeline-font-lock-keywords
  `(("^[ \t]*\\(subject\\|rater\\)[ \t]+\\([A-Za-z0-9][A-Za-z0-9._-]*\\)"
     (1 'rangeline-header) (2 'rangeline-code))
    ("^[ \t]*\\(sex\\)[ \t]+\\(F\\|M\\|X\\|female\\|male\\)\\_>"
     (1 'rangeline-header) (2 'rangeline-word))
    (,(concat "^[ \t]*\\(" (rangeline--any 'header) "\\)\\_>")
     (1 'rangeline-header))
    ("\"[^\"\n]*$" . 'rangeline-error)
    (,(rangeline--word (concat "\\(?:[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]"
                               "\\|[0-9][0-9]:[0-9][0-9]\\)"))
     . 'rangeline-date)
    ("\\_<by[ \t]+\\([A-Za-z0-9][A-Za-z0-9._-]*\\)" 1 'rangeline-code)
    ("[0-9.],[0-9][^ \t\n]*" . 'rangeline-error)
    (,(rangeline--word rangeline--value) . 'rangeline-number)
    ("\\_<[-+–−‐‑—]?[0-9][^] \t\n,;\"#]*" . 'rangeline-error)
    (,(rangeline--word
       (concat "\\(?:" (rangeline--any 'angle) "-[0-9]+\\|"
               (rangeline--any 'part) "-" (rangeline--any 'state)
               "\\(?:-[0-9]+\\)?\\)"))
     . 'rangeline-position)
    ,@(mapcar (lambda (group)
                (cons (rangeline--word (rangeline--any (car group)))
                      `',(cdr group)))
              '((motion . rangeline-motion)
                (position . rangeline-position)
                (joint . rangeline-joint)
                (mode . rangeline-mode-word)
                (side . rangeline-side)
                (outcome . rangeline-outcome)
                (word . rangeline-word)
                (feel . rangeline-feel)
                (number . rangeline-number)))
    ("#[ \t]*\\(accept\\(?:[ \t]+[a-z-]+\\(?:[ \t]*,[ \t]*[a-z-]+\\)*\\)?\\)\
[ \t]*\\(?::\\|$\\)"
     (1 (and (nth 4 (save-excursion (syntax-ppss (match-beginning 1))))
             'rangeline-accept)
        prepend)))
  "What is coloured, what comes first before what comes later.")

(defvar rangeline-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\" "." table)
    (modify-syntax-entry ?\\ "." table)
    (dolist (inside '(?- ?. ?_ ?' ?+ ?: ?° ?º ?– ?− ?‐ ?‑ ?—))
      (modify-syntax-entry inside "_" table))
    (dolist (between '(?/ ?, ?\; ?= ?* ?& ?| ?< ?> ?% ?$))
      (modify-syntax-entry between "." table))
    table)
  "A text has no escapes and ends with its line: see `rangeline--texts'.")

;; A # begins a comment only at the start of a line or after a blank, and a "
;; that no other closes on its line begins no text.
(defconst rangeline--texts
  (syntax-propertize-rules
   ("[^ \t\n,]\\(#\\)" (1 "."))
   ("\\(\"\\)[^\"\n]*\\(\"\\)"
    (1 (unless (nth 8 (save-excursion (syntax-ppss (match-beginning 1))))
         (string-to-syntax "|")))
    (2 (unless (nth 4 (save-excursion (syntax-ppss (match-beginning 1))))
         (string-to-syntax "|"))))))

(defun rangeline-tidy ()
  "Align the columns of the note and make its spelling uniform.
What cannot be read stays as it is.  Point keeps its line."
  (interactive)
  (let ((note (current-buffer))
        (tidied (generate-new-buffer " *rangeline tidy*"))
        (coding-system-for-read 'utf-8-unix)
        (coding-system-for-write 'utf-8-unix))
    (unwind-protect
        (let ((status (call-process-region nil nil rangeline-program nil
                                           (list tidied nil) nil "tidy")))
          (unless (memq status '(0 1))
            (error "%s tidy did not work; nothing was changed"
                   rangeline-program))
          (with-current-buffer note
            (replace-buffer-contents tidied)))
      (kill-buffer tidied))))

(defun rangeline-summary ()
  "Lay the sessions of the note out, both sides side by side."
  (interactive)
  (let ((coding-system-for-read 'utf-8-unix)
        (coding-system-for-write 'utf-8-unix)
        (output (get-buffer-create "*rangeline summary*")))
    (with-current-buffer output
      (setq buffer-read-only nil)
      (erase-buffer))
    (call-process-region nil nil rangeline-program nil output nil "summary"
                         "--stdin-name" (buffer-name))
    (with-current-buffer output
      (goto-char (point-min))
      (special-mode))
    (display-buffer output)))

(defvar rangeline-mode-map
  (let ((map (make-sparse-keymap)))
    (define-key map (kbd "C-c C-c") #'compile)
    (define-key map (kbd "C-c C-f") #'rangeline-tidy)
    (define-key map (kbd "C-c C-s") #'rangeline-summary)
    map))

;;;###autoload
(define-derived-mode rangeline-mode prog-mode "Range"
  "Notes of joint range of motion, one reading to a line."
  (setq-local comment-start "# ")
  (setq-local comment-end "")
  (setq-local comment-start-skip "#+[ \t]*")
  (setq-local font-lock-defaults
              '(rangeline-font-lock-keywords nil t))
  (setq-local syntax-propertize-function rangeline--texts)
  ;; A line stands where it stands: indentation means nothing.
  (setq-local indent-line-function #'indent-relative)
  (setq-local compilation-error-screen-columns nil)
  (when buffer-file-name
    (setq-local compile-command
                (concat rangeline-program " check --color=never "
                        (shell-quote-argument
                         (file-name-nondirectory buffer-file-name))))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.range\\'" . rangeline-mode))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               `(rangeline-mode . (,rangeline-program "language-server"))))

(provide 'rangeline-mode)
;;; rangeline-mode.el ends here
