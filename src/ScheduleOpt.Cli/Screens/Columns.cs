using Spectre.Console;

namespace ScheduleOpt.Cli.Screens;

/// <summary>Tables as every screen has them: a line under the headings, figures to the right.</summary>
internal static class Columns
{
    /// <summary>A table.</summary>
    /// <param name="headings">Headings; one that begins with <c>&gt;</c> has its column to the right.</param>
    public static Table Of(params ReadOnlySpan<string> headings)
    {
        var table = new Table { Border = TableBorder.Simple, UseSafeBorder = false };
        foreach (var heading in headings)
        {
            var right = heading.StartsWith('>');
            table.AddColumn(new TableColumn(new Text(right ? heading[1..] : heading, new Style(decoration: Decoration.Bold)))
            {
                Alignment = right ? Justify.Right : Justify.Left,
                Padding = new Padding(0, 0, 1, 0),
                NoWrap = false,
            });
        }

        return table;
    }

    /// <summary>Adds a row of plain texts.</summary>
    public static void Row(this Table table, Style? style, params ReadOnlySpan<string> cells)
    {
        var texts = new Text[cells.Length];
        for (var i = 0; i < cells.Length; i++)
        {
            texts[i] = new Text(cells[i], style);
        }

        table.AddRow(texts);
    }
}
