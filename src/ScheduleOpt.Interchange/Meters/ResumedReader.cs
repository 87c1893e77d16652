namespace ScheduleOpt.Interchange.Meters;

/// <summary>A text whose beginning has been looked at already.</summary>
internal sealed class ResumedReader(string head, TextReader rest) : TextReader
{
    private int given;

    public override int Read() => given < head.Length ? head[given++] : rest.Read();

    public override int Peek() => given < head.Length ? head[given] : rest.Peek();

    public override int Read(char[] buffer, int index, int count)
    {
        if (given == head.Length)
        {
            return rest.Read(buffer, index, count);
        }

        var taken = Math.Min(count, head.Length - given);
        head.CopyTo(given, buffer, index, taken);
        given += taken;
        return taken;
    }
}
