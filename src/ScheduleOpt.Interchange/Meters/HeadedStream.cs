namespace ScheduleOpt.Interchange.Meters;

/// <summary>A stream whose beginning has been read already. The stream behind it stays open.</summary>
internal sealed class HeadedStream(ReadOnlyMemory<byte> head, Stream rest) : Stream
{
    private int given;

    public override bool CanRead => true;

    public override bool CanSeek => false;

    public override bool CanWrite => false;

    public override long Length => throw new NotSupportedException();

    public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

    public override int Read(byte[] buffer, int offset, int count) => Read(buffer.AsSpan(offset, count));

    public override int Read(Span<byte> buffer)
    {
        if (given == head.Length)
        {
            return rest.Read(buffer);
        }

        var count = Math.Min(buffer.Length, head.Length - given);
        head.Span.Slice(given, count).CopyTo(buffer);
        given += count;
        return count;
    }

    public override void Flush()
    {
    }

    public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

    public override void SetLength(long value) => throw new NotSupportedException();

    public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
}
