namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Passes a table on, and stops where a row is longer than any real one: a parser keeps a whole row in memory.</summary>
internal sealed class RecordLimitReader(TextReader inner) : TextReader
{
    private bool quoted;
    private int length, line = 1;
    private long total;

    public override int Read(char[] buffer, int index, int count)
    {
        var read = inner.Read(buffer, index, count);
        foreach (var c in buffer.AsSpan(index, read))
        {
            Take(c);
        }

        total += read;
        return total <= MeterLimits.Bytes
            ? read
            : throw new FileRefusedException(new("#", $"A file of meter readings must not be larger than {MeterLimits.Bytes / 1024 / 1024} MiB."));
    }

    public override int Read(Span<char> buffer)
    {
        var copy = new char[buffer.Length];
        var read = Read(copy, 0, copy.Length);
        copy.AsSpan(0, read).CopyTo(buffer);
        return read;
    }

    private void Take(char c)
    {
        length++;
        switch (c)
        {
            case '"':
                quoted = !quoted;
                break;
            case '\n' or '\r':
                line += c == '\n' ? 1 : 0;
                length = quoted ? length : 0;
                break;
        }

        if (length > MeterLimits.PieceCharacters)
        {
            throw new FileRefusedException(new("#",
                $"A row must not be longer than {MeterLimits.PieceCharacters} characters; a quotation mark may not have been closed.", "", line));
        }
    }
}
