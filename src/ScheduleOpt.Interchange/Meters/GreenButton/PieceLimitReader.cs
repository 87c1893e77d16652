namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Passes XML text on, and stops where a tag, a comment or a stretch of text is longer than any real file has: a reader of XML keeps each of them
/// whole in memory.</summary>
internal sealed class PieceLimitReader(TextReader inner) : TextReader
{
    private enum Place
    {
        Text,
        Tag,
        Quoted,
        Comment,
        Characters,
        Instruction,
    }

    private Place place = Place.Text;
    private char quote, before, beforeThat;
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
        return total <= MeterLimits.Bytes ? read : throw TooLarge();
    }

    public override int Read()
    {
        var read = inner.Read();
        if (read >= 0)
        {
            Take((char)read);
        }

        return ++total <= MeterLimits.Bytes ? read : throw TooLarge();
    }

    public override int Peek() => inner.Peek();

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            inner.Dispose();
        }

        base.Dispose(disposing);
    }

    private static FileRefusedException TooLarge() =>
        new(new("#", $"A file of meter readings must not be larger than {MeterLimits.Bytes / 1024 / 1024} MiB."));

    private void Take(char c)
    {
        length++;
        if (c == '\n')
        {
            line++;
        }

        var next = Next(c);
        if (next != place)
        {
            // What is quoted inside a tag belongs to the tag.
            length = place == Place.Quoted || next == Place.Quoted ? length : 0;
            place = next;
        }
        else if (length > MeterLimits.PieceCharacters)
        {
            throw new FileRefusedException(new("#", $"No tag, comment or text may be longer than {MeterLimits.PieceCharacters} characters.", "", line));
        }

        (beforeThat, before) = (before, c);
    }

    private Place Next(char c)
    {
        switch (place)
        {
            case Place.Text:
                return c == '<' ? Place.Tag : Place.Text;
            case Place.Tag when length == 1 && c == '?':
                return Place.Instruction;
            case Place.Tag when length == 3 && c == '-' && before == '-' && beforeThat == '!':
                return Place.Comment;
            case Place.Tag when length == 2 && c == '[' && before == '!':
                return Place.Characters;
            case Place.Tag when c is '"' or '\'':
                quote = c;
                return Place.Quoted;
            case Place.Quoted:
                return c == quote ? Place.Tag : Place.Quoted;
            case Place.Tag:
                return c == '>' ? Place.Text : Place.Tag;
            case Place.Comment:
                return c == '>' && before == '-' && beforeThat == '-' ? Place.Text : Place.Comment;
            case Place.Characters:
                return c == '>' && before == ']' && beforeThat == ']' ? Place.Text : Place.Characters;
            default:
                return c == '>' && before == '?' ? Place.Text : Place.Instruction;
        }
    }
}
