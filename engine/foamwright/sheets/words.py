"""The words of the page's own furniture: buttons, questions, states. The page knows them by key only."""

from typing import Final

from foamwright.reader import NP_, Message, N_

WORDS: Final[dict[str, Message]] = {
    # NOTE: First link of the page, for the keyboard.
    "skip": N_("Skip to the estimate"),
    # NOTE: Label of a choice.
    "language": N_("Language"),
    # NOTE: Label of a choice: metric, US, imperial.
    "units": N_("Units"),
    # NOTE: Name of the strip of answers, for screen readers.
    "answers": N_("Answers at a glance"),
    # NOTE: Name of the group of buttons Undo, Redo, Send, Menu, for screen readers.
    "tools": N_("Tools"),
    # NOTE: Heading over the list of the page's sections: Place, Shape, Mix and so on.
    "sections": N_("Go to"),
    # NOTE: Button.
    "undo": N_("Undo"),
    # NOTE: Button.
    "redo": N_("Redo"),
    # NOTE: Button, short: opens what is sent to the landowner. Also the title of what opens.
    "send": N_("Send"),
    # NOTE: Button, short. Also the title of what opens.
    "menu": N_("Menu"),
    # NOTE: Button.
    "close": N_("Close"),
    # NOTE: Shown until the estimate is there.
    "computing": N_("Computing the estimate…"),
    # NOTE: State of the page: nothing can be changed in this view.
    "reading": N_("For reading"),
    # NOTE: State of the project: it is still the one that the page came with.
    "kept_none": N_("Nothing changed yet"),
    # NOTE: State of the project.
    "kept_saving": N_("Saving…"),
    # NOTE: State of the project.
    "kept_saved": N_("Saved on this device"),
    # NOTE: State of the project: the browser keeps nothing.
    "kept_not": N_("Not saved on this device"),
    # NOTE: Last line of the page. Caution: must be exact.
    "foot": N_("An estimate, not a design. Local codes and licensed people decide."),
    # NOTE: Stands for the name of a project that has none.
    "nameless": N_("Without a name"),
    # NOTE: Beside the name of a saved project that cannot be read.
    "damaged": N_("damaged"),
    # NOTE: Button on each sheet.
    "print": N_("Print"),
    # NOTE: For screen readers: button that prints one sheet. sheet: its title.
    "print_sheet": N_("Print: %(sheet)s"),
    # NOTE: For screen readers: a button and what it acts on, such as 'Remove this opening: Opening 2'.
    "of_item": N_("%(act)s: %(item)s"),
    # NOTE: Heading over the three questions of a first visit.
    "first_title": N_("Make it yours"),
    # NOTE: Under that heading.
    "first_words": N_("This is a small dome to start from. Three answers make it your own."),
    # NOTE: Button under the three questions: hides them and goes to the first section.
    "first_done": N_("Go on to the rest"),
    # NOTE: Once, under the first figures.
    "why_hint": N_("Touch any figure to see why it is what it is."),
    # NOTE: Heading over the list of values that could not be taken.
    "needs_a_look": N_("This needs a look"),
    # NOTE: Shown while the project as it stands gives no estimate.
    "figures_before": N_("The figures on the page are those from before this change."),
    # NOTE: Beside a field.
    "not_taken": N_("This was not taken. What you typed is still here; the last good value counts."),
    # NOTE: Over two buttons with two readings of a typed number.
    "which_one": N_("Which one do you mean?"),
    # NOTE: For screen readers: name of a group of buttons with bag sizes.
    "common_bags": N_("Common bags"),
    # NOTE: Asked when the currency changes.
    "prices_what": N_("There are prices already. What should become of them?"),
    # NOTE: Label of a field: an exchange rate.
    "rate": N_("How much of the new currency for one of the old?"),
    # NOTE: Label of a field.
    "rate_date": N_("Date of the rate"),
    # NOTE: Button.
    "leave_currency": N_("Leave the currency as it was"),
    # NOTE: Announced. what: title of the item.
    "removed": N_("Removed: %(what)s. Undo brings it back."),
    # NOTE: Announced. what: label of the field.
    "undone": N_("Undone: %(what)s"),
    # NOTE: Announced. what: label of the field.
    "redone": N_("Done again: %(what)s"),
    # NOTE: Announced.
    "undone_one": N_("One step undone"),
    # NOTE: Announced.
    "redone_one": N_("One step done again"),
    # NOTE: Notice.
    "undo_end": N_("This is where the project began. There is nothing more to undo."),
    # NOTE: Notice.
    "undo_trimmed": N_("Older steps were dropped to save room. Undo reaches back to here."),
    # NOTE: Notice.
    "redo_end": N_("There is nothing to do again."),
    # NOTE: Title of the answer to a touched figure, until it is there.
    "why": N_("Why?"),
    # NOTE: Heading: the rule in words.
    "why_rule": N_("How it comes about"),
    # NOTE: Heading: list of the inputs.
    "why_inputs": N_("It follows from"),
    # NOTE: Heading: from the least to the most.
    "why_range": N_("Range"),
    # NOTE: Heading: published, worked out, common practice and so on.
    "why_basis": N_("What stands behind it"),
    # NOTE: Heading.
    "why_source": N_("Source"),
    # NOTE: Heading.
    "why_leaves_out": N_("What it leaves out"),
    # NOTE: Shown in place of the answer.
    "why_none": N_("There is no answer while the project needs a look."),
    # NOTE: Heading in the menu.
    "project": N_("Project"),
    # NOTE: Button.
    "new_project": N_("New project"),
    # NOTE: Button.
    "save_file": N_("Save to a file"),
    # NOTE: Button: a project file from this device.
    "open_file": N_("Open a file"),
    # NOTE: Button: a project code that came in a message. The message names this button.
    "open_code": N_("Open a code"),
    # NOTE: Label of a field.
    "paste_code": N_("Paste the code or the whole message"),
    # NOTE: Button.
    "open": N_("Open"),
    # NOTE: Button: shows the sheets without the fields.
    "landowner_view": N_("Read only, as the landowner does"),
    # NOTE: Button: back from reading to the fields.
    "back_to_editing": N_("Change something"),
    # NOTE: Button.
    "print_all": N_("Print all sheets"),
    # NOTE: Heading over a list of projects.
    "saved_projects": N_("Projects kept on this device"),
    # NOTE: Button.
    "delete": N_("Delete"),
    # NOTE: Notice. what: name of the project.
    "deleted": N_("Deleted: %(what)s"),
    # NOTE: Heading in the menu.
    "numbers_and_look": NP_("brightness of the page", "Numbers and light"),
    # NOTE: Label of a choice.
    "digits": N_("Digits"),
    # NOTE: Label of a choice.
    "number_style": N_("How numbers are written"),
    # NOTE: Label of a choice: light or dark page. Not weight, not a lamp.
    "light": NP_("brightness of the page", "Light"),
    # NOTE: Choice.
    "light_auto": N_("As the device has it"),
    # NOTE: Choice.
    "light_light": N_("Bright, for the sun"),
    # NOTE: Choice.
    "light_dark": N_("Dark, for the night"),
    # NOTE: Heading in the menu.
    "for_translators": N_("For translators"),
    # NOTE: Button: loads a translation that is not finished.
    "try_catalog": N_("Try a catalog (.po)"),
    # NOTE: Above that button.
    "try_catalog_words": N_("An unfinished translation can be loaded here and seen at once. It stays on this page only."),
    # NOTE: Button.
    "drop_catalog": N_("Put the catalog away"),
    # NOTE: Notice.
    "catalog_taken": N_("The catalog is in use"),
    # NOTE: Notice.
    "catalog_refused": N_("This catalog could not be read. Nothing was changed."),
    # NOTE: Button.
    "send_to_landowner": N_("Send it to the landowner"),
    # NOTE: Label of a choice.
    "to_language": N_("Language of the one who gets it"),
    # NOTE: Label of a choice.
    "to_units": N_("Units of the one who gets it"),
    # NOTE: Above the message.
    "send_how_code": N_("This page is a file on your device, so a link to it would open nowhere else. Send the message: the one who gets it opens the same page and pastes the code."),
    # NOTE: Above the message.
    "send_how_link": N_("Send the message or the link. The whole project is in it; nothing is kept anywhere else."),
    # NOTE: Label of a text to copy.
    "message": N_("Message, ready to send"),
    # NOTE: Label of a text to copy: an internet address.
    "link": N_("Link"),
    # NOTE: Label of a text to copy.
    "code": N_("The project as a code"),
    # NOTE: Button.
    "copy": N_("Copy"),
    # NOTE: Announced.
    "copied": N_("Copied"),
    # NOTE: Notice.
    "copy_by_hand": N_("This browser does not copy by itself. The text is marked: copy it by hand."),
    # NOTE: Button: hands the message to another app of the device.
    "share": N_("Share…"),
    # NOTE: Button: shows the sheets in the language and units chosen above.
    "see_as_landowner": N_("See it as they will"),
    # NOTE: Shown in place of the message.
    "send_none": N_("It cannot be sent while the project needs a look."),
    # NOTE: Heading of a question.
    "came_by_link": N_("A project came with the link"),
    # NOTE: Heading of a question.
    "came_by_code": N_("A project came as a code"),
    # NOTE: Heading of a question.
    "came_by_file": N_("A project came from a file"),
    # NOTE: Button: the project at hand stays, the one that came is left.
    "keep_mine": N_("Keep mine"),
    # NOTE: Button: both are kept.
    "open_beside": N_("Open it beside mine"),
    # NOTE: Button: can be undone.
    "replace_mine": N_("Put it in place of mine"),
    # NOTE: Notice.
    "same_project": N_("This is the project that is open already."),
    # NOTE: Notice.
    "not_opened": N_("This could not be opened. Nothing was changed."),
    # NOTE: Notice, where the engine gives no better reason.
    "not_opened_words": N_("It is not a project, or it is damaged. Ask for it to be sent again."),
    # NOTE: Notice.
    "opened_with_problems": N_("Opened, but this needs a look"),
    # NOTE: Notice above a project that is only read.
    "guest": N_("You are reading a project that came to you. Your own is kept."),
    # NOTE: Notice.
    "store_missing_words": N_("This browser keeps nothing for this page, perhaps because of a private window. Save the project to a file before you leave."),
    # NOTE: Notice.
    "store_failed": N_("The project could not be saved on this device"),
    # NOTE: Notice.
    "store_failed_words": N_("Save it to a file, so that it is not lost."),
    # NOTE: Notice.
    "store_damaged": N_("What this device kept cannot be read"),
    # NOTE: Notice.
    "store_damaged_words": N_("It was left as it is and nothing was written over it. Here is a project to start from; the kept text can be copied."),
    # NOTE: Question: most likely in another tab.
    "conflict_title": N_("This project was changed somewhere else"),
    # NOTE: Question.
    "conflict_words": N_("It was saved from another tab or window since this one opened it. Nothing has been written over it."),
    # NOTE: Button: can be undone.
    "conflict_theirs": N_("Take the other one"),
    # NOTE: Button.
    "conflict_mine": N_("Keep this one"),
    # NOTE: Button.
    "conflict_both": N_("Keep both"),
    # NOTE: Notice: something went wrong inside the page.
    "fault_title": N_("The engine stumbled"),
    # NOTE: Notice.
    "fault_words": N_("Your project is safe and the last good figures are still shown. Undo the last change and go on; if it comes again, save the project to a file and reload the page."),
    # NOTE: Label of a text to copy.
    "details": N_("Details for whoever mends it"),
    # NOTE: Button.
    "copy_details": N_("Copy the details"),
    # NOTE: Button: closes a notice.
    "understood": N_("Understood"),
    # NOTE: Progress while the page starts.
    "boot_unpack": N_("Unpacking…"),
    # NOTE: Progress while the page starts.
    "boot_compile": N_("Making the engine ready…"),
    # NOTE: Progress while the page starts.
    "boot_restore": N_("Waking the engine…"),
    # NOTE: Progress while the page starts.
    "boot_ready": N_("Nearly there…"),
    # NOTE: Button under the large figures of the first sheet: shows the rest of it.
    "more": N_("More figures and notes"),
    # NOTE: The same button, once the rest is shown.
    "less": N_("Fewer figures and notes"),
    # NOTE: Button, short: opens the view for use on the building site, with a wet thumb and in the sun.
    "site": N_("On site"),
    # NOTE: Button, short, with an arrow back: leaves the site view and goes back to the estimate.
    "site_leave": N_("Estimate"),
    # NOTE: Button, short, with an arrow back: from one tool of the site view to the list of all.
    "site_tools": N_("All tools"),
    # NOTE: Shown until the site view is there.
    "site_opening": N_("Opening the diary…"),
    # NOTE: Large button of the site view: puts the entry down in the diary.
    "site_save": N_("Save"),
    # NOTE: Said once an entry is on the disk, and never before.
    "site_saved": N_("Saved"),
    # NOTE: Button beside an entry of the diary: it no longer counts, and stays to be seen.
    "site_strike": N_("Undo"),
    # NOTE: Beside an entry of the diary that no longer counts.
    "site_struck": N_("Struck out"),
    # NOTE: Heading over the list of entries.
    "site_log": N_("Diary"),
    # NOTE: In place of the list of entries.
    "site_none": N_("Nothing is entered yet. Everything saved here stays on this device, also when the browser is closed."),
    # NOTE: Button under the newest entries.
    "site_all": N_("Show the whole diary"),
    # NOTE: Heading: what the diary says beside the estimate, and what could be changed in it.
    "site_learn": N_("What was learnt"),
    # NOTE: Large button: puts the measured values into the project. Can be undone.
    "site_take": N_("Take into the estimate"),
    # NOTE: Notice, followed by what has changed.
    "site_taken": N_("Taken into the estimate. Undo brings back what stood there."),
    # NOTE: Heading over the buttons that write the diary to a file and read one.
    "site_files": N_("Two phones"),
    # NOTE: Under that heading.
    "site_files_words": N_("Write the diary to a file, send it to the other phone and read it there. Entries that are there already are not doubled. The diary is in no link and in no project file; a copy of this page that you save carries it."),
    # NOTE: Button.
    "site_out": N_("Write the diary to a file (CSV)"),
    # NOTE: Button: opens a file.
    "site_in": N_("Read a diary from a file (CSV)"),
    # NOTE: Notice, followed by how many entries were new.
    "site_in_taken": N_("The other diary is read in"),
    # NOTE: Notice.
    "site_failed": N_("This entry could not be saved on this device"),
    # NOTE: Notice.
    "site_failed_words": N_("It is still here: copy it and keep it somewhere safe before you close the page."),
    # NOTE: Button.
    "site_copy": N_("Copy the entry"),
}
