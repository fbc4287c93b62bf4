;;; norma-mode.el --- Protocols for clinical photography  -*- lexical-binding: t; -*-

;; Version: 0.1.0
;; Package-Requires: ((emacs "27.1"))
;; Keywords: languages

;;; Commentary:

;; Colours, comments and indentation of norma protocols (*.norma), and the row that
;; makes eglot start norma's language server: checks while one types, quick fixes, help,
;; completion, renaming.
;;
;; The lists between the marker lines are made from norma's table of words
;; (UPDATE_GENERATED=1 structure_tests); all else is written by hand.

;;; Code:

(defgroup norma nil
  "Protocols for clinical photography."
  :group 'languages)

(defcustom norma-program "norma"
  "The program norma."
  :type 'string)

(defcustom norma-kit nil
  "Kit that protocols are held against: a file, from the top folder of the project.
It is read when the language server starts."
  :type '(choice (const :tag "None" nil) string))

(defconst norma-mode--statements
  '(
    ;; statements: begin
    "accept" "adopted" "air" "aperture" "assistant" "background" "camera" "caution" "code"
    "crops" "dentures" "distance" "exposure" "for" "frame" "guide" "head" "iso" "lamp"
    "lips" "mirror" "missing" "mouth" "norma" "operator" "originals" "photographed"
    "picture" "protocol" "ratio" "retractor" "revision" "ruler" "same" "say" "sensor"
    "series" "shutter" "site" "step" "suction" "taken" "teeth" "tolerance" "tongue"
    "tooth" "view" "after picture" "allowed blur" "builds on" "camera held" "centre on"
    "change series" "change view" "consent for" "contrast paddle" "drop view" "face view"
    "file format" "file names" "focus on" "grey card" "insert with" "must show"
    "review by" "shade tab" "stop if" "white balance" "every face view" "every mouth view"
    "if not possible" "must be sharp" "must not show" "or else show" "or else view"
    "others must keep" "take again if" "take out first" "teeth turned away"
    "may show in part" "take again at most"
    ;; statements: end
    )
  "Words that start a statement.")

(defconst norma-mode--clauses
  '(
    ;; clauses: begin
    "JPEG" "a" "above" "accept" "adopted" "adults" "after" "again" "ahead" "air" "allowed"
    "and" "apart" "aperture" "are" "as" "assistant" "at" "away" "back" "background"
    "balance" "be" "because" "before" "behind" "below" "beside" "between" "bite" "biting"
    "black" "blue" "blur" "bottom" "bubbles" "builds" "built" "by" "camera" "card"
    "caution" "centre" "centric" "cervical" "chair" "change" "cheek" "cheeks" "children"
    "chin" "choice" "clear" "clip" "closed" "code" "consent" "contrast" "crops" "daylight"
    "denture" "dentures" "directly" "disc" "distance" "down" "drop" "dry" "drying" "ears"
    "edge" "edges" "else" "end" "even" "every" "exposure" "eye" "face" "field" "file"
    "fingers" "firm" "first" "fixed" "flash" "focus" "for" "format" "frame" "from" "front"
    "frosted" "glare" "grey" "guide" "gum" "hair" "hand" "head" "held" "high" "holding"
    "if" "in" "insert" "inserting" "insurance" "into" "is" "iso" "it" "its" "jaw"
    "jewellery" "keep" "kept" "laid" "lamp" "large" "last" "least" "lens" "less" "level"
    "light" "limit" "lips" "little" "marked" "match" "may" "metal" "middle" "midline"
    "milk" "mirror" "mirrored" "missing" "mixed" "modelling" "more" "most" "mouth" "must"
    "name" "named" "names" "natural" "nearer" "needs" "neighbouring" "next" "no" "none"
    "norma" "nose" "not" "noted" "number" "of" "off" "on" "one" "open" "opened" "operator"
    "opposing" "optional" "or" "originals" "other" "others" "out" "outwards" "over"
    "paddle" "part" "parts" "patient" "photographed" "picture" "place" "plain" "plane"
    "plastic" "point" "polished" "position" "possible" "protocol" "publication" "ratio"
    "raw" "reason" "record" "referral" "relation" "relaxed" "resting" "rests" "retractor"
    "retractors" "review" "revision" "ridge" "ring" "row" "rule" "ruler" "saliva" "same"
    "say" "second" "seen" "sensor" "series" "set" "settings" "shade" "sharp" "show"
    "shutter" "side" "site" "small" "smiling" "stays" "step" "stop" "straight" "suction"
    "tab" "take" "taken" "takes" "taking" "teaching" "teeth" "tension" "that" "the"
    "there" "thing" "third" "time" "times" "tipped" "to" "together" "tolerance" "tongue"
    "tooth" "top" "towards" "turned" "twin" "unaltered" "under" "until" "up" "upright"
    "upside" "usual" "view" "visit" "wait" "warmed" "way" "wetted" "when" "whichever"
    "white" "whole" "wide" "with" "without" "words" "write" "x"
    ;; clauses: end
    )
  "Words behind the first of a statement.")

(defconst norma-mode--units
  '(
    ;; units: begin
    "mm" "cm" "m" "um" "deg" "stop" "stops" "s" "ms" "min" "lx" "K"
    ;; units: end
    )
  "Units, but for %.")

(defun norma-mode--any (words)
  "A regular expression for one of WORDS, with any blanks between their parts."
  (mapconcat (lambda (word) (replace-regexp-in-string " " "[ \t]+" (regexp-quote word)))
             (sort (copy-sequence words) (lambda (a b) (> (length a) (length b))))
             "\\|"))

(defconst norma-mode--statement
  (concat "\\(?:^\\|{\\)[ \t]*\\(?:\\(also\\|no\\)[ \t]+\\)?\\("
          (norma-mode--any norma-mode--statements) "\\)\\_>")
  "A statement's start: 1 is `also' or `no', 2 its word.")

(defun norma-mode--goes-on-p (position)
  "Whether the line at POSITION goes on with the one before, which ends in a comma."
  (save-excursion
    (goto-char position)
    (forward-line 0)
    (forward-comment (- (point)))
    (eq (char-before) ?,)))

(defun norma-mode--next-statement (limit)
  "Find the next start of a statement before LIMIT."
  (let (found)
    (while (and (not found) (re-search-forward norma-mode--statement limit t))
      (let ((word (match-beginning 2))
            (matched (match-data)))
        (setq found (and (not (nth 8 (save-excursion (syntax-ppss word))))
                         (not (norma-mode--goes-on-p word))))
        (set-match-data matched)))
    found))

(defconst norma-mode--number "[+-]?\\_<[0-9]+\\(?:/[0-9]+\\|\\.[0-9]+\\)?"
  "A number.")

(defconst norma-mode-font-lock-keywords
  `((norma-mode--next-statement (1 font-lock-builtin-face nil t) (2 font-lock-keyword-face))
    ("\\_<\\(?:view\\|series\\|protocol\\|same[ \t]+as\\|builds[ \t]+on\\)[ \t]+\\([a-z_][a-z0-9_]*\\)\\_>"
     1 font-lock-function-name-face)
    ("\\_<[0-9]\\{4\\}-[0-9][0-9]-[0-9][0-9]\\_>" . font-lock-constant-face)
    ("\\_<[0-9]+\\(?:\\.[0-9]+\\)?:[0-9]+\\(?:\\.[0-9]+\\)?\\_>" . font-lock-constant-face)
    ("\\_<f/[0-9]+\\(?:\\.[0-9]+\\)?\\_>" . font-lock-constant-face)
    ("\\_<[0-9]+,[0-9]+\\_>" . font-lock-warning-face)
    (,(concat norma-mode--number "[ \t]*\\(?:%\\|\\(?:" (norma-mode--any norma-mode--units)
              "\\)\\_>\\)")
     . font-lock-constant-face)
    (,(concat norma-mode--number "\\_>") . font-lock-constant-face)
    ("\\_<[EI]V[0-9][0-9]\\_>" . font-lock-constant-face)
    (,(regexp-opt '("facial" "buccal" "labial" "occlusal" "incisal" "lingual" "palatal") 'symbols)
     . font-lock-type-face)
    (,(regexp-opt '("left" "right" "upper" "lower" "both") 'symbols) . font-lock-constant-face)
    (,(concat "\\_<\\(?:" (norma-mode--any norma-mode--clauses) "\\)\\_>")
     . font-lock-variable-name-face))
  "Colours: the first that fits a place.")

(defvar norma-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?# "<" table)
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?\" "\"" table)
    (modify-syntax-entry ?\\ "\\" table)
    (modify-syntax-entry ?{ "(}" table)
    (modify-syntax-entry ?} "){" table)
    (modify-syntax-entry ?_ "_" table)
    (dolist (sign '(?/ ?: ?. ?- ?+ ?% ?=))
      (modify-syntax-entry sign "." table))
    table)
  "Syntax of protocols.")

(defun norma-mode-indent-line ()
  "Indent this line by its blocks; a line that goes on stands one step deeper."
  (interactive)
  (let* ((start (line-beginning-position))
         (depth (car (syntax-ppss start)))
         (steps (save-excursion
                  (goto-char start)
                  (skip-chars-forward " \t")
                  (cond ((eq (char-after) ?}) (1- depth))
                        ((norma-mode--goes-on-p start) (1+ depth))
                        (t depth))))
         (behind (- (current-column) (current-indentation))))
    (indent-line-to (* 2 (max 0 steps)))
    (when (> behind 0) (forward-char behind))))

;;;###autoload
(define-derived-mode norma-mode prog-mode "norma"
  "Mode for protocols of clinical photography."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]*")
  (setq-local comment-end "")
  (setq-local indent-tabs-mode nil)
  (setq-local indent-line-function #'norma-mode-indent-line)
  (setq-local font-lock-defaults '(norma-mode-font-lock-keywords)))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.norma\\'" . norma-mode))

(defun norma-mode--server (&rest _)
  "How the language server is started, with `norma-kit'."
  (append (list norma-program "serve")
          (and norma-kit (list :initializationOptions `(:norma (:kit ,norma-kit))))))

(defvar eglot-server-programs)
(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs '(norma-mode . norma-mode--server)))

(provide 'norma-mode)
;;; norma-mode.el ends here
