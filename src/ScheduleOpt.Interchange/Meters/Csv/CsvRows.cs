using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>The rows of a table (RFC 4180), one after another; its first rows are kept for guessing and come again.</summary>
internal sealed class CsvRows : IDisposable
{
    private const int HeadCharacters = 32_768, LongestField = 2000;
    private static readonly char[] Delimiters = [',', ';', '\t', '|'];

    private readonly CsvParser parser;
    private readonly List<(int Line, string[] Cells)> sample = [];
    private int next;

    public CsvRows(TextReader text)
    {
        var head = new char[HeadCharacters];
        var length = text.ReadBlock(head, 0, head.Length);
        Delimiter = Guess(head.AsSpan(0, length));
        var resumed = new ResumedReader(new string(head, 0, length), text);
        parser = new(new RecordLimitReader(resumed), new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = Delimiter.ToString(),
            HasHeaderRecord = false,
            IgnoreBlankLines = false,
            BadDataFound = null,
            MissingFieldFound = null,
            MaxFieldSize = LongestField,
            ExceptionMessagesContainRawData = false,
        });
        while (sample.Count < MeterLimits.SampleRows && Parse() is { } row)
        {
            sample.Add(row);
        }
    }

    public char Delimiter { get; }

    /// <summary>The first rows.</summary>
    public IReadOnlyList<(int Line, string[] Cells)> Sample => sample;

    /// <summary>The next row, from the first of the file on; none at its end.</summary>
    public (int Line, string[] Cells)? Next() => next < sample.Count ? sample[next++] : Parse();

    public void Dispose() => parser.Dispose();

    private (int Line, string[] Cells)? Parse()
    {
        try
        {
            if (!parser.Read())
            {
                return null;
            }
        }
        catch (CsvHelperException)
        {
            throw new FileRefusedException(new("#",
                $"A cell must not be longer than {LongestField} characters; a quotation mark may not have been closed.", "", parser.RawRow));
        }

        if (parser.Count > MeterLimits.Columns)
        {
            throw new FileRefusedException(new("#", $"A table must not have more than {MeterLimits.Columns} columns.", $"{parser.Count}", parser.RawRow));
        }

        var cells = parser.Record ?? [];
        for (var i = 0; i < cells.Length; i++)
        {
            cells[i] = cells[i].Trim();
        }

        return (parser.RawRow, cells);
    }

    // The one that occurs most outside quotation marks.
    private static char Guess(ReadOnlySpan<char> head)
    {
        var counts = new int[Delimiters.Length];
        var quoted = false;
        foreach (var c in head)
        {
            quoted ^= c == '"';
            if (!quoted && Array.IndexOf(Delimiters, c) is var i and >= 0)
            {
                counts[i]++;
            }
        }

        return Delimiters[Array.IndexOf(counts, counts.Max())];
    }
}
