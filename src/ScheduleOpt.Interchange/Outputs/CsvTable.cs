using System.Globalization;
using System.Text;

namespace ScheduleOpt.Interchange.Outputs;

/// <summary>A table as comma-separated values (RFC 4180): a header, CRLF, decimal points.</summary>
/// <remarks>
/// A text that a spreadsheet would take for a formula, because it begins with = + - @ or a control character, gets an apostrophe before it.
/// </remarks>
internal sealed class CsvTable
{
    private readonly StringBuilder text = new();
    private readonly int columns;
    private int inRow;

    /// <summary>Begins a table.</summary>
    public CsvTable(params ReadOnlySpan<string> header)
    {
        columns = header.Length;
        foreach (var name in header)
        {
            Cell(name);
        }
    }

    /// <summary>Adds a text that somebody else chose.</summary>
    public CsvTable Text(string value) =>
        Cell(Quoted(value.Length > 0 && (value[0] is '=' or '+' or '-' or '@' || char.IsControl(value[0])) ? "'" + value : value));

    /// <summary>Adds a text of our own that needs neither quotes nor an apostrophe.</summary>
    public CsvTable Word(string value) => Cell(value);

    /// <summary>Adds a number.</summary>
    public CsvTable Number(double value, int digits) =>
        Cell(((decimal)Math.Round(value, digits, MidpointRounding.AwayFromZero) + 0m).ToString("0.##########", CultureInfo.InvariantCulture));

    /// <summary>The table as UTF-8.</summary>
    public byte[] ToUtf8() => Encoding.UTF8.GetBytes(text.ToString());

    private static string Quoted(string value) =>
        value.AsSpan().IndexOfAny(",\"\r\n") < 0 ? value : $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";

    private CsvTable Cell(string cell)
    {
        text.Append(inRow > 0 ? "," : "").Append(cell);
        inRow++;
        if (inRow == columns)
        {
            text.Append("\r\n");
            inRow = 0;
        }

        return this;
    }
}
