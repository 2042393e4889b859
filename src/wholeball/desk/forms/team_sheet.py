"""Is the form by which a list is handed in: its size is judged before it is read."""

from typing import Any

from django import forms

from wholeball.files.archive import MOST_PACKED


class TeamSheetForm(forms.Form):
    """Takes a spreadsheet of teams."""

    file = forms.FileField(
        label="A CSV file or an .xlsx workbook",
        help_text=(
            "Choose it or drop it here: one row a team, with a column “team” or “team name”."
            " Pools, divisions, blocks and colours are read where there are columns of that name."
        ),
        widget=forms.FileInput(attrs={"accept": ".csv,.xlsx,text/csv"}),
        error_messages={
            "required": "There is no file yet. Choose one.",
            "empty": "The file is empty. Choose one that lists the teams.",
        },
    )

    def clean_file(self) -> Any:
        """Return the file, unless it is too large."""
        given = self.cleaned_data["file"]
        if given.size > MOST_PACKED:
            most = MOST_PACKED // 1_000_000
            raise forms.ValidationError(
                f"The file has {given.size:,} bytes. Choose one of at most {most} MB."
            )
        return given
