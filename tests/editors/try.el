;;; In emacs: colours, indentation, and eglot's client.  -*- lexical-binding: t; -*-
(require 'norma-mode)
(require 'eglot)
(require 'cl-lib)

(defun is (got wanted what)
  (unless (equal got wanted)
    (error "%s: %S, not %S" what got wanted)))

(defun wait (what done)
  (with-timeout (20 (error "Never came: %s; %S" what (flymake-diagnostics)))
    (while (not (funcall done))
      ;; What Emacs does where nobody types: without a screen it is never idle.
      (when (eglot-current-server) (eglot--signal-textDocument/didChange))
      (accept-process-output nil 0.02)
      (flymake-start nil))))

(defun mistakes ()
  (cl-remove-if-not (lambda (d) (eq (flymake-diagnostic-type d) 'eglot-error)) (flymake-diagnostics)))

(defun at (text)
  (goto-char (point-min))
  (search-forward text)
  (goto-char (match-beginning 0)))

;; Questions are answered by the first that is offered.
(advice-add 'y-or-n-p :override (lambda (&rest _) t))
(advice-add 'completing-read :override (lambda (_ offered &rest _) (car (all-completions "" offered))))
(setq eglot-sync-connect 10 eglot-autoshutdown t make-backup-files nil create-lockfiles nil)

(find-file "base.norma")
(is major-mode 'norma-mode "mode")
(font-lock-ensure)
(dolist (row '(("protocol base" font-lock-keyword-face) ("base \"" font-lock-function-name-face)
               ("no block" font-lock-string-face) ("aperture" font-lock-keyword-face)
               ("# }" font-lock-comment-delimiter-face) ("1:2" font-lock-constant-face)
               ("must show" font-lock-keyword-face) ("facial" font-lock-type-face)
               ("to 23" font-lock-variable-name-face) ("36 x" font-lock-constant-face)))
  (is (get-text-property (at (car row)) 'face) (cadr row) (car row)))
(at "must show")
(let ((line (thing-at-point 'line)))
  (delete-horizontal-space)
  (indent-according-to-mode)
  (is (thing-at-point 'line) line "indentation"))
(save-buffer)

(apply #'eglot--connect (eglot--guess-contact))
(wait "the mistake" (lambda () (= 1 (length (mistakes)))))
(is (flymake-diagnostic-beg (car (mistakes))) (at "f22") "place")

(at "f22")
(eglot-code-actions (point) (+ 3 (point)) "quickfix" t)
(is (not (null (ignore-errors (at "f/22")))) t "quick fix")
(wait "its end" (lambda () (null (mistakes))))

(at "front \"")
(eglot-rename "facial_view")
(is (not (null (at "same as facial_view"))) t "the new name")
(eglot-format-buffer)
(save-some-buffers t)
(with-current-buffer (find-file-noselect "child.norma")
  (is (buffer-modified-p) nil "the other file"))
(eglot-shutdown (eglot-current-server) nil 10)
