using System.Globalization;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Reads the numbers of a table.</summary>
/// <param name="delimiter">What separates its cells.</param>
/// <param name="decimalComma">Whether a comma is the decimal mark.</param>
internal sealed class NumberText(char delimiter, bool decimalComma)
{
    private const NumberStyles Plain = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    public bool DecimalComma => decimalComma;

    /// <summary>The number, or false. A comma groups thousands only inside quotation marks, which a cell with a comma had in a table that
    /// commas separate.</summary>
    public bool TryParse(string cell, out decimal number)
    {
        number = 0;
        if (cell.Length is 0 or > 60)
        {
            return false;
        }

        var text = cell.AsSpan().TrimStart("$£€").TrimEnd("kKwWhH ").Trim();
        if (text.IsEmpty)
        {
            return false;
        }

        if (!text.Contains(','))
        {
            return decimal.TryParse(text, Plain, CultureInfo.InvariantCulture, out number);
        }

        if (decimalComma)
        {
            return text.Count(',') == 1 && !text.Contains('.')
                && decimal.TryParse(text.ToString().Replace(',', '.'), Plain, CultureInfo.InvariantCulture, out number);
        }

        return delimiter == ',' && IsGrouped(text) && decimal.TryParse(text.ToString().Replace(",", "", StringComparison.Ordinal), Plain,
            CultureInfo.InvariantCulture, out number);
    }

    /// <summary>Whether a cell holds no reading. Blank is missing, never zero.</summary>
    public static bool IsBlank(string cell) => cell.Length == 0 || cell is "-" or "--" or "." || cell.Equals("null", StringComparison.OrdinalIgnoreCase)
        || cell.Equals("n/a", StringComparison.OrdinalIgnoreCase) || cell.Equals("na", StringComparison.OrdinalIgnoreCase)
            || cell.Equals("nan", StringComparison.OrdinalIgnoreCase);

    /// <summary>Whether a cell looks like a number with a decimal comma.</summary>
    public static bool LooksLikeDecimalComma(string cell) => cell.Length <= 20 && cell.Count(c => c == ',') == 1 && !cell.Contains('.')
        && cell.All(c => c is ',' or '-' || char.IsAsciiDigit(c)) && char.IsAsciiDigit(cell[^1]);

    // 1,028.00 and 12,345,678, not 1,02.
    private static bool IsGrouped(ReadOnlySpan<char> text)
    {
        text = text.TrimStart("+-");
        var point = text.IndexOf('.');
        var whole = point < 0 ? text : text[..point];
        var first = true;
        foreach (var range in whole.Split(','))
        {
            var group = whole[range];
            if (group.IsEmpty || group.Length > 3 || (!first && group.Length != 3) || group.ContainsAnyExceptInRange('0', '9'))
            {
                return false;
            }

            first = false;
        }

        return true;
    }
}
