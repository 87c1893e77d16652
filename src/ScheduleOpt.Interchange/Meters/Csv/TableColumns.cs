namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Finds columns by what they hold and what they are called.</summary>
internal sealed class TableColumns(TableSample sample, ReadingNotes notes)
{
    /// <summary>Whether a text has a word.</summary>
    public static bool HasToken(string text, string token) =>
        text.Split([' ', '(', ')', '[', ']', '_', '-', '/', ',', ':', '.'], StringSplitOptions.RemoveEmptyEntries).Contains(token);

    /// <summary>Whether a column's name contains one of some words, anywhere.</summary>
    public bool HasWord(int column, params string[] words) => Array.Exists(words, w => sample.Name(column).Contains(w, StringComparison.Ordinal));

    /// <summary>Columns of a kind.</summary>
    public IEnumerable<int> All(ColumnKind kind) => Enumerable.Range(0, sample.Kinds.Count).Where(c => sample.Kinds[c] == kind);

    /// <summary>The first column of a kind, starts before ends.</summary>
    public int? First(ColumnKind kind) => All(kind).Cast<int?>().OrderBy(c => IsEnd(sample.Name(c!.Value))).FirstOrDefault();

    /// <summary>The first column of a kind whose name contains one of some words.</summary>
    public int? Named(ColumnKind kind, params string[] words) => All(kind).Cast<int?>().FirstOrDefault(c => HasWord(c!.Value, words));

    /// <summary>The column that the client names; a fault where the table has none of that name.</summary>
    public int? Column(string? name, string field)
    {
        if (name is null)
        {
            return null;
        }

        var column = name.StartsWith('#') && int.TryParse(name.AsSpan(1), out var number) ? number - 1
            : Array.FindIndex(sample.Header, h => string.Equals(h, name.Trim(), StringComparison.OrdinalIgnoreCase));
        if (column >= 0 && column < sample.Kinds.Count)
        {
            return column;
        }

        notes.Fault($"#/csv/{field}", "The table must have this column.", name);
        return null;
    }

    /// <summary>Whether a name speaks of an end.</summary>
    public static bool IsEnd(string name) => name.Contains("end", StringComparison.Ordinal) || name.Contains(" to", StringComparison.Ordinal) || name == "to";
}
